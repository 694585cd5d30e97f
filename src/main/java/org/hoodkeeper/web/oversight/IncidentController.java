package org.hoodkeeper.web.oversight;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.exchange.Guard;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.IncidentFiles;
import org.hoodkeeper.web.Paper;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** The file of an incident: to read, to print, to take along. Each file that is taken along is kept in the list of issued files. */
@Controller
class IncidentController {

    private static final MediaType CSV = new MediaType("text", "csv", StandardCharsets.UTF_8);

    private final IncidentFiles files;
    private final IncidentLines lines;
    private final Paper paper;
    private final Refusals refusals;
    private final Words words;
    private final Show show;
    private final AuditTrail audit;

    IncidentController(
            IncidentFiles files,
            IncidentLines lines,
            Paper paper,
            Refusals refusals,
            Words words,
            Show show,
            AuditTrail audit) {
        this.files = files;
        this.lines = lines;
        this.paper = paper;
        this.refusals = refusals;
        this.words = words;
        this.show = show;
        this.audit = audit;
    }

    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/incident")
    String show(Visit visit, @ModelAttribute("incident") IncidentForm form, BindingResult shape, Model page) {
        page.addAttribute("abouts", IncidentFiles.About.values());
        if (form.isEmpty()) {
            return "oversight/incident";
        }
        try {
            IncidentFiles.File file = open(visit, form);
            page.addAllAttributes(model(visit, file));
        } catch (NotFound unknown) {
            shape.rejectValue("name", "incident.name.unknown", new Object[] {form.name()}, null);
        } catch (Refused refused) {
            refusals.show(refused, shape);
        }
        return "oversight/incident";
    }

    @Allowed(Role.OFFICER)
    @GetMapping({"/sites/{site}/incident.pdf", "/api/sites/{site}/incident.pdf"})
    ResponseEntity<byte[]> pdf(Visit visit, @ModelAttribute("incident") IncidentForm form) {
        IncidentFiles.File file = open(visit, form);
        byte[] bytes = paper.print("fragments/incident-print", "incident.css", model(visit, file));
        files.issued(visit.viewer(), file, bytes, "pdf");
        return answer(visit, file, bytes, MediaType.APPLICATION_PDF, "pdf");
    }

    @Allowed(Role.OFFICER)
    @GetMapping({"/sites/{site}/incident.csv", "/api/sites/{site}/incident.csv"})
    ResponseEntity<byte[]> csv(Visit visit, @ModelAttribute("incident") IncidentForm form) {
        IncidentFiles.File file = open(visit, form);
        byte[] bytes = table(visit, file).getBytes(StandardCharsets.UTF_8);
        files.issued(visit.viewer(), file, bytes, "csv");
        return answer(visit, file, bytes, CSV, "csv");
    }

    /** That it was opened is noted for each person in it. */
    private IncidentFiles.File open(Visit visit, IncidentForm form) {
        IncidentFiles.File file = files.of(visit.viewer(), form.asked(visit.zone()));
        audit.seen(visit.viewer(), file.persons(), "incident");
        return file;
    }

    private static ResponseEntity<byte[]> answer(
            Visit visit, IncidentFiles.File file, byte[] bytes, MediaType type, String ending) {
        String name = (visit.siteCode() + "-" + file.asked().about() + "-"
                                + file.asked().name())
                        .toLowerCase(Locale.ROOT)
                        .replaceAll("[^a-z0-9.-]+", "-")
                + "." + ending;
        return ResponseEntity.ok()
                .contentType(type)
                .header(HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"" + name + "\"")
                .header(HttpHeaders.CACHE_CONTROL, "no-store")
                .body(bytes);
    }

    private Map<String, Object> model(Visit visit, IncidentFiles.File file) {
        Map<String, Object> model = new LinkedHashMap<>();
        IncidentFiles.Asked asked = file.asked();
        model.put("file", file);
        model.put("lines", lines.of(visit, file));
        model.put(
                "sentence",
                words.say(
                        "incident.answer." + asked.about(),
                        asked.name(),
                        show.interval(asked.from(), asked.until(), visit.zone()),
                        file.wears()));
        model.put("moment", words.say("incident.knownAt", show.instant(file.knownAt(), visit.zone())));
        model.put("siteName", visit.siteName());
        model.put("zone", visit.zone().getId());
        model.put("ruleSets", String.join(", ", file.ruleSets()));
        model.put("show", show);
        model.put("at", visit.zone());
        return model;
    }

    private String table(Visit visit, IncidentFiles.File file) {
        StringWriter out = new StringWriter();
        try (CSVPrinter printer = new CSVPrinter(out, CSVFormat.RFC4180)) {
            printer.printRecord(
                    "at",
                    "until",
                    "kind",
                    "what",
                    "about",
                    "with",
                    "told",
                    "told_by",
                    "days_late",
                    "fate",
                    "screen_said",
                    "known_now",
                    "barred",
                    "decides",
                    "record");
            for (IncidentLines.Line line : lines.of(visit, file)) {
                printer.printRecord(cells(visit, line));
            }
        } catch (IOException never) {
            throw new UncheckedIOException(never);
        }
        return out.toString();
    }

    private static List<String> cells(Visit visit, IncidentLines.Line line) {
        return List.of(
                line.at().atZone(visit.zone()).toOffsetDateTime().toString(),
                line.until() == null
                        ? ""
                        : line.until().atZone(visit.zone()).toOffsetDateTime().toString(),
                Guard.put(line.kind()),
                Guard.put(line.what()),
                Guard.put(line.about()),
                Guard.put(text(line.with())),
                line.told().atZone(visit.zone()).toOffsetDateTime().toString(),
                Guard.put(line.by()),
                String.valueOf(line.late()),
                line.fate(),
                text(line.said()),
                text(line.known()),
                line.barred(),
                String.valueOf(line.decides()),
                line.record());
    }

    private static String text(@Nullable Object value) {
        return value == null ? "" : value.toString();
    }
}
