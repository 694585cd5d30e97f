package org.hoodkeeper.web.officer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.GuidedWorks;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.GuideStep;
import org.hoodkeeper.store.Guides;
import org.hoodkeeper.store.ShelfModel;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** The steps of the guided work on one model, and how the safety officer has each of them done there. */
@Controller
@RequestMapping("/sites/{site}/models/{code}/guides")
class GuideStepController {

    private static final String VIEW = "officer/guide-step";

    private final Sheets sheets;
    private final Bench bench;
    private final Guides guides;
    private final GuidedWorks works;

    GuideStepController(Sheets sheets, Bench bench, Guides guides, GuidedWorks works) {
        this.sheets = sheets;
        this.bench = bench;
        this.guides = guides;
        this.works = works;
    }

    /** @param own what is done otherwise on this model; none where it is done as usual */
    public record Row(GuideStep step, @Nullable GuideStepWords own, boolean isNeeded) {

        public GuideStepWords.Use use() {
            return own == null ? GuideStepWords.Use.AS_USUAL : own.use();
        }
    }

    @ModelAttribute("held")
    ShelfModel held(Visit visit, @PathVariable String code) {
        return bench.models(visit.viewer().site(), sheets.now()).stream()
                .filter(model -> model.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new NotFound("model.unknown", code));
    }

    @ModelAttribute("uses")
    List<Choice> uses(@PathVariable(required = false) @Nullable String step) {
        return step != null && GuideStepWords.isOwn(step)
                ? Choice.each("guideStep.use.", GuideStepWords.Use.ADDED, GuideStepWords.Use.LEFT_OUT)
                : Choice.each(
                        "guideStep.use.",
                        GuideStepWords.Use.AS_USUAL,
                        GuideStepWords.Use.WITH_WORDS,
                        GuideStepWords.Use.LEFT_OUT);
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String list(Visit visit, @ModelAttribute("held") ShelfModel held, Model page) {
        page.addAttribute("rows", rows(visit, held));
        return "officer/guide-steps";
    }

    @Allowed(Role.OFFICER)
    @GetMapping("/{step}")
    String show(Visit visit, @ModelAttribute("held") ShelfModel held, @PathVariable String step, Model page) {
        page.addAttribute("row", row(visit, held, step));
        page.addAttribute("guideStep", new GuideStepForm(null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping("/{step}")
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("held") ShelfModel held,
            @PathVariable String step,
            @Valid @ModelAttribute("guideStep") GuideStepForm form,
            BindingResult typed) {
        Row row = row(visit, held, step);
        ModelAndView page = sheets.take(
                visit, request, form, typed, new Sheet("guideStep", VIEW, () -> record(visit, held, row, form)));
        page.addObject("row", row);
        return page;
    }

    private RecordId record(Visit visit, ShelfModel held, Row row, GuideStepForm form) {
        GuideStepWords.Use use = Objects.requireNonNull(form.use());
        boolean hasWords = use == GuideStepWords.Use.WITH_WORDS || use == GuideStepWords.Use.ADDED;
        String words = hasWords ? form.words() : keptWords(row);
        return works.adapt(
                Author.at(visit.viewer()),
                held.id(),
                row.step().key(),
                new GuideStepWords(
                        use,
                        words,
                        form.reason(),
                        row.own() == null ? null : row.own().after()),
                form.instant(visit.zone(), sheets.now()));
    }

    /** A step of the model's own that is left out keeps its words: without them nobody knows which it was. */
    private static @Nullable String keptWords(Row row) {
        return row.step().isOwn() ? row.step().words() : null;
    }

    private List<Row> rows(Visit visit, ShelfModel held) {
        Map<String, GuideStepWords> own = guides.own(visit.viewer().site(), held.id(), sheets.now());
        return Stream.concat(guides.all(held.data()).stream(), guides.ownSteps(held.data(), own).stream())
                .map(step -> new Row(step, own.get(step.key()), GuidedWorks.isNeeded(step.key())))
                .toList();
    }

    private Row row(Visit visit, ShelfModel held, String step) {
        return rows(visit, held).stream()
                .filter(row -> row.step().key().equals(step))
                .findFirst()
                .orElseThrow(() -> new NotFound("guide.unknown", step));
    }
}
