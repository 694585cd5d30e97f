package org.hoodkeeper.web.record;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.Entitled;
import org.hoodkeeper.exchange.Rewriting;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Line;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.Way;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.validation.FieldError;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** States a record anew, with its own values to begin with. */
@Controller
@RequestMapping("/sites/{site}/records/{record}/correction")
class CorrectionController {

    private static final String NAME = "correction";
    private static final String VIEW = "record/correction";
    private static final String CELL = "cell-";

    private final Chains chains;
    private final Cells cells;
    private final Corrections corrections;
    private final Sheets sheets;
    private final About about;
    private final CorrectionPreview preview;
    private final Words words;

    CorrectionController(
            Chains chains,
            Cells cells,
            Corrections corrections,
            Sheets sheets,
            About about,
            CorrectionPreview preview,
            Words words) {
        this.preview = preview;
        this.chains = chains;
        this.cells = cells;
        this.corrections = corrections;
        this.sheets = sheets;
        this.about = about;
        this.words = words;
    }

    @Allowed({Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.WORKER})
    @GetMapping
    ModelAndView show(Visit visit, @PathVariable String record, Model page) {
        History.Version version = chains.open(visit, record);
        page.addAttribute(NAME, new CorrectionForm(null, null));
        return version.replacedBy() != null ? overtaken(visit, version, null, page) : asked(visit, version, null, page);
    }

    @Allowed({Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.WORKER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            @PathVariable String record,
            HttpServletRequest request,
            @Valid @ModelAttribute(NAME) CorrectionForm form,
            BindingResult typed,
            Model page) {
        History.Version version = chains.open(visit, record);
        Map<String, String> cellsTyped = typed(request);
        if (version.replacedBy() != null) {
            return overtaken(visit, version, cellsTyped, page);
        }
        asked(visit, version, cellsTyped, page);
        List<Cells.Field> fields = cells.fields(visit, version, cellsTyped);
        Rewriting.Read read = cells.read(visit, version, cellsTyped);
        refuse(version, form, typed, fields, read, page);
        Instant trying = sheets.now();
        Way way = new Way(
                NAME,
                VIEW,
                "sheet/check",
                () -> lines(fields, form),
                () -> record(
                        visit,
                        version,
                        form,
                        read.stated(),
                        why -> page.addAttribute("fields", cells.refused(fields, why))),
                () -> preview.of(
                        visit,
                        version,
                        trying,
                        read.stated() == null
                                ? version.told().from()
                                : read.stated().from()),
                told -> "/sites/" + visit.siteCode() + "/records/" + told);
        ModelAndView result = sheets.take(visit, request, typed, way);
        History.Version after = chains.again(visit, version);
        boolean overtaken = VIEW.equals(result.getViewName()) && after.replacedBy() != null;
        return overtaken ? overtaken(visit, after, cellsTyped, page) : result;
    }

    private void refuse(
            History.Version version,
            CorrectionForm form,
            BindingResult typed,
            List<Cells.Field> fields,
            Rewriting.Read read,
            Model page) {
        if (Corrections.canChange(version.kind()) && form.aim() == null) {
            typed.rejectValue("aim", "correction.aim.missing", words.say("correction.aim.missing"));
        }
        if (!form.isChange() && (form.because() == null || form.because().isBlank())) {
            typed.rejectValue("because", "refused.ledger.becauseMissing", words.say("refused.ledger.becauseMissing"));
        }
        for (Rewriting.Wrong wrong : read.wrong()) {
            String why = words.refusal(wrong.why());
            if (wrong.column().isEmpty()) {
                typed.reject("correction.record", why);
            } else {
                String id = Cells.id(wrong.column());
                typed.addError(new FieldError(NAME, id, null, false, null, null, label(fields, id) + " " + why));
            }
        }
        page.addAttribute("fields", cells.refused(fields, read.wrong()));
    }

    private String label(List<Cells.Field> fields, String id) {
        return fields.stream()
                .filter(field -> field.id().equals(id))
                .findFirst()
                .map(field -> words.say(field.labelKey()))
                .orElse("");
    }

    /** @param refused hears what the door refused, to say it beside its field too */
    private RecordId record(
            Visit visit,
            History.Version version,
            CorrectionForm form,
            @Nullable Draft stated,
            Consumer<Refused> refused) {
        if (stated == null) {
            throw new IllegalStateException("what could not be read is refused before");
        }
        RecordId old = version.told().id();
        try {
            return form.isChange()
                    ? corrections.change(visit.viewer(), old, stated)
                    : corrections.correct(visit.viewer(), old, stated, form.because());
        } catch (Refused why) {
            refused.accept(why);
            throw why;
        }
    }

    private List<Line> lines(List<Cells.Field> fields, CorrectionForm form) {
        List<Line> lines = new ArrayList<>();
        if (form.aim() != null) {
            lines.add(new Line("correction.aim", words.say("correction.aim." + form.aim())));
        }
        cells.changes(fields).forEach(shown -> lines.add(new Line(shown.key(), shown.value())));
        if (!form.isChange() && form.because() != null) {
            lines.add(new Line("correction.because", form.because()));
        }
        return lines;
    }

    private ModelAndView asked(Visit visit, History.Version version, @Nullable Map<String, String> typed, Model page) {
        page.addAttribute("version", version);
        page.addAttribute("about", about.of(visit, version));
        page.addAttribute("mayChange", Corrections.canChange(version.kind()));
        page.addAttribute("aims", Choice.each("correction.aim.", CorrectionForm.Aim.values()));
        page.addAttribute("fields", cells.fields(visit, version, typed));
        if (!Entitled.toCorrect(visit.viewer(), version)) {
            throw new Refused("correction.notEntitled", version.kind());
        }
        if (!Rewriting.isRewritten(version.kind())) {
            throw new Refused("correction.takeBack", version.kind());
        }
        return new ModelAndView(VIEW);
    }

    /**
     * Somebody else was first: the page shows what that person stated, who and why, with what was typed here beside it, and asks
     * again.
     */
    private ModelAndView overtaken(
            Visit visit, History.Version version, @Nullable Map<String, String> typed, Model page) {
        History.Version newest = chains.newest(visit, version);
        if (newest.withdrawal()) {
            throw new Refused("correction.withdrawn", newest.told().corrects());
        }
        asked(visit, newest, null, page);
        page.addAttribute("first", chains.of(visit, newest).get(0));
        if (typed != null) {
            page.addAttribute(
                    "fields",
                    cells.fields(visit, newest, null).stream()
                            .map(field -> field.typedBefore(typed.getOrDefault(field.id(), "")))
                            .toList());
        }
        return new ModelAndView(VIEW, typed == null ? HttpStatus.OK : HttpStatus.CONFLICT);
    }

    private static Map<String, String> typed(HttpServletRequest request) {
        Map<String, String> typed = new LinkedHashMap<>();
        request.getParameterMap().forEach((name, values) -> {
            if (name.startsWith(CELL) && values.length > 0) {
                typed.put(name, values[0]);
            }
        });
        return typed;
    }
}
