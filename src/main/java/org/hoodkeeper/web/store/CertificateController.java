package org.hoodkeeper.web.store;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Particulars;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.Certificates;
import org.hoodkeeper.store.Certificates.Certificate;
import org.hoodkeeper.store.MeasuredFlow;
import org.hoodkeeper.web.Paper;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.servlet.ModelAndView;

/** The certificate of an examination, on the screen and on paper. A particular that nobody recorded is said to be missing. */
@Controller
class CertificateController {

    private static final String FLOW = "L/min";

    private final Certificates certificates;
    private final Desk desk;
    private final Paper paper;
    private final Words words;
    private final Show show;

    CertificateController(Certificates certificates, Desk desk, Paper paper, Words words, Show show) {
        this.certificates = certificates;
        this.desk = desk;
        this.paper = paper;
        this.words = words;
        this.show = show;
    }

    /**
     * One field of the certificate.
     *
     * @param name in words
     * @param value in words
     * @param known false where nobody recorded it
     */
    public record Particular(String name, String value, boolean known) {}

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/sets/{label}/examinations/{record}")
    String show(Visit visit, @PathVariable String label, @PathVariable String record, Model page) {
        page.addAllAttributes(model(visit, certificate(visit, label, record)));
        page.addAttribute("record", record);
        page.addAttribute("officer", visit.viewer().is(Role.OFFICER));
        return "store/certificate";
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/sets/{label}/examinations/{record}.pdf")
    ResponseEntity<byte[]> pdf(Visit visit, @PathVariable String label, @PathVariable String record) {
        byte[] bytes = paper.print(
                "fragments/certificate-print", "certificate.css", model(visit, certificate(visit, label, record)));
        String name = (visit.siteCode() + "-" + label + "-examination")
                        .toLowerCase(Locale.ROOT)
                        .replaceAll("[^a-z0-9.-]+", "-")
                + ".pdf";
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"" + name + "\"")
                .header(HttpHeaders.CACHE_CONTROL, "no-store")
                .body(bytes);
    }

    private Certificate certificate(Visit visit, String label, String record) {
        return certificates.of(visit.viewer().site(), label, Sheets.recordId(record), desk.now());
    }

    private Map<String, Object> model(Visit visit, Certificate of) {
        List<Particular> particulars = particulars(of);
        long missing = particulars.stream().filter(one -> !one.known()).count();
        Map<String, Object> model = new HashMap<>();
        model.put("label", of.label());
        model.put("sentence", sentence(of));
        model.put("particulars", particulars);
        model.put("missing", missing == 0 ? "" : words.say("certificate.missing", missing));
        model.put("replaced", !of.version().isCurrent());
        model.put("siteName", visit.siteName());
        model.put("zone", visit.zone().getId());
        model.put(
                "told",
                words.say(
                        "certificate.told",
                        of.version().told().recordedAt(),
                        of.version().told().id()));
        return model;
    }

    private String sentence(Certificate of) {
        return words.say(
                "certificate.answer." + of.examination().outcome(),
                of.label(),
                of.version().told().from());
    }

    private List<Particular> particulars(Certificate of) {
        List<Particular> all = new ArrayList<>();
        Particulars site = of.particulars();
        SetData set = of.set();
        ModelData model = of.model();
        Examination examination = of.examination();
        add(all, "employer", site == null ? null : site.employer());
        add(all, "address", site == null ? null : site.address());
        add(all, "equipment", equipment(of));
        add(all, "number", of.label());
        add(all, "serial", set == null ? null : set.serial());
        add(all, "maker", of.maker());
        add(all, "date", show.instant(of.version().told().from()));
        add(all, "examiner", examination.examiner());
        add(all, "outcome", words.say("certificate.outcome." + examination.outcome()));
        add(all, "condition", examination.note());
        if (model == null || model.type().hasFlow()) {
            flow(all, of.flow());
        } else {
            add(all, "flow", words.say("certificate.flow.none"));
        }
        if (model != null && !model.type().filtersRoomAir() && !model.type().isAirFed()) {
            add(all, "pressure", null);
        }
        return all;
    }

    private @Nullable String equipment(Certificate of) {
        ModelData model = of.model();
        SetData set = of.set();
        return model == null || set == null
                ? null
                : words.say("certificate.equipment.said", of.modelCode(), model.name(), model.type(), set.size());
    }

    private void flow(List<Particular> all, @Nullable MeasuredFlow flow) {
        add(all, "flow", flow == null ? null : show.figure(flow.shown(), FLOW));
        if (flow == null) {
            return;
        }
        FlowReading.Judgement judged = flow.judged();
        FlowYardstick yardstick = flow.yardstick();
        add(all, "corrected", judged == null ? null : show.figure(judged.corrected(), FLOW));
        add(
                all,
                "minimum",
                yardstick == null ? null : show.figure(yardstick.minimum().litresPerMinute(), FLOW));
        add(all, "counts", words.say("certificate.counts." + flow.result()));
    }

    private void add(List<Particular> all, String name, @Nullable String value) {
        String said = words.say("certificate." + name);
        all.add(
                value == null || value.isBlank()
                        ? new Particular(said, words.say("certificate.notOnRecord"), false)
                        : new Particular(said, value, true));
    }

    @ExceptionHandler
    ModelAndView unknown(NotFound nothing) {
        return ScanController.nothing(String.valueOf(nothing.arguments()[0]));
    }
}
