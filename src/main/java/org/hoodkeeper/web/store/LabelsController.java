package org.hoodkeeper.web.store;

import jakarta.validation.Valid;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.LabelPrinter;
import org.hoodkeeper.store.LabelPrinter.Label;
import org.hoodkeeper.store.LabelSheet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Labels to print: chosen on one page, given as a file. Nothing is recorded but that they were taken. */
@Controller
class LabelsController {

    private static final String VIEW = "store/labels";

    private final Kit kit;
    private final Bench bench;
    private final Desk desk;
    private final Refusals refusals;
    private final Words words;
    private final AuditTrail audit;

    LabelsController(Kit kit, Bench bench, Desk desk, Refusals refusals, Words words, AuditTrail audit) {
        this.kit = kit;
        this.bench = bench;
        this.desk = desk;
        this.refusals = refusals;
        this.words = words;
        this.audit = audit;
    }

    @ModelAttribute("whats")
    List<Choice> whats() {
        return Choice.each("labels.what.", LabelsForm.What.values());
    }

    @ModelAttribute("sheets")
    List<Choice> sheets() {
        return Choice.each("labels.sheet.", LabelSheet.values());
    }

    /** @param label one that is to be printed, as a set's page asks */
    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/labels")
    String show(@RequestParam(required = false) @Nullable String label, Model page) {
        page.addAttribute("labels", new LabelsForm(LabelsForm.What.SETS, label, LabelSheet.A4_70_37, 1));
        return VIEW;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/labels/sheet")
    Object sheet(Visit visit, @Valid @ModelAttribute("labels") LabelsForm form, BindingResult typed)
            throws IOException {
        if (!typed.hasErrors()) {
            try {
                byte[] pdf = print(visit, form);
                audit.record(
                        visit.viewer().site(),
                        AuditEntry.of("labels.printed")
                                .by(visit.viewer().account())
                                .saying(String.valueOf(form.what())));
                return file(visit.siteCode(), pdf);
            } catch (Refused refused) {
                refusals.show(refused, typed);
            }
        }
        return new ModelAndView(VIEW, HttpStatus.UNPROCESSABLE_CONTENT);
    }

    private byte[] print(Visit visit, LabelsForm form) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        int first = form.first() == null ? 1 : form.first();
        LabelPrinter.print(
                visit.siteCode(),
                labels(visit.viewer().site(), form),
                Objects.requireNonNull(form.sheet()),
                first,
                out);
        return out.toByteArray();
    }

    /** @throws NotFound {@code labelSheet.labels.unknown} when one that was typed is not on this site */
    private List<Label> labels(SiteId site, LabelsForm form) {
        Map<String, Label> all = all(site, Objects.requireNonNull(form.what()));
        if (form.chosen().isEmpty()) {
            return List.copyOf(all.values());
        }
        return form.chosen().stream()
                .map(label -> {
                    Label found = all.get(label);
                    if (found == null) {
                        throw new NotFound("labelSheet.labels.unknown", label);
                    }
                    return found;
                })
                .toList();
    }

    private Map<String, Label> all(SiteId site, LabelsForm.What what) {
        Map<String, Label> labels = new TreeMap<>();
        switch (what) {
            case SETS ->
                bench.of(site, desk.now())
                        .forEach(set -> labels.put(
                                set.label(), new Label(set.label(), (set.model() + " " + set.size()).strip())));
            case INSTRUMENTS ->
                kit.instruments(site)
                        .forEach(one ->
                                labels.put(one.code(), new Label(one.code(), words.say("labels.about.INSTRUMENTS"))));
            case SUPPLIES ->
                kit.supplies(site)
                        .forEach(one ->
                                labels.put(one.code(), new Label(one.code(), words.say("labels.about.SUPPLIES"))));
        }
        return labels;
    }

    private static ResponseEntity<byte[]> file(String site, byte[] pdf) {
        ContentDisposition name = ContentDisposition.attachment()
                .filename("labels-" + site + ".pdf")
                .build();
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(HttpHeaders.CONTENT_DISPOSITION, name.toString())
                .body(pdf);
    }
}
