package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.evidence.GuidedWorks;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.GuideStep;
import org.hoodkeeper.store.Guides;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BeanPropertyBindingResult;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Work step by step, one thing a page; every answer is kept. What was answered travels with the pages. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/guides")
class GuideController {

    private static final String STEP = "store/guide-step";
    private static final String FINISH = "store/guide-finish";

    private final Desk desk;
    private final Answers answers;
    private final Guides guides;
    private final GuidedWorks works;
    private final FlowChecks flowChecks;
    private final PartChanges partChanges;
    private final Indicators indicators;
    private final StockAnswer stock;
    private final Kit kit;
    private final Words words;

    GuideController(
            Desk desk,
            Answers answers,
            Guides guides,
            GuidedWorks works,
            FlowChecks flowChecks,
            PartChanges partChanges,
            Indicators indicators,
            StockAnswer stock,
            Kit kit,
            Words words) {
        this.desk = desk;
        this.answers = answers;
        this.guides = guides;
        this.works = works;
        this.flowChecks = flowChecks;
        this.partChanges = partChanges;
        this.indicators = indicators;
        this.stock = stock;
        this.kit = kit;
        this.words = words;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("guide.answer.", Outcome.PASS, Outcome.FAIL);
    }

    @ModelAttribute("fitters")
    List<Choice> fitters() {
        return Choice.each("part.fitted.", PartForm.Fitted.values());
    }

    @ModelAttribute("instruments")
    List<Choice> instruments(Visit visit, @ModelAttribute("set") ShelfSet set) {
        return indicators.valid(visit.viewer().site(), set.modelData(), desk.now()).stream()
                .map(one -> Choice.named(one.code(), one.code()))
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String list(@ModelAttribute("set") ShelfSet set, Model page) {
        page.addAttribute("guides", GuidePath.of(model(set)));
        return "store/guides";
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping("/{work}")
    ModelAndView begin(Visit visit, @ModelAttribute("set") ShelfSet set, @PathVariable String work) {
        GuidePath path = path(work, set);
        return turn(steps(visit, set, path), path, GuideForm.empty(), 0);
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping("/{work}")
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @PathVariable String work,
            @RequestParam(required = false) @Nullable String step,
            @Valid @ModelAttribute("guide") GuideForm form,
            BindingResult typed) {
        GuidePath path = path(work, set);
        List<GuideStep> steps = steps(visit, set, path);
        int page = Math.max(0, Math.min(steps.size(), form.page() == null ? 0 : form.page()));
        if ("next".equals(step) && page < steps.size()) {
            return next(steps, path, form, typed, page);
        }
        if ("back".equals(step)) {
            GuideForm kept = form.answer() == null || page == steps.size()
                    ? form
                    : form.with(steps.get(page).code(), form.answer());
            return turn(steps, path, kept, Math.max(0, page - 1));
        }
        ModelAndView answer = desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "guide",
                        FINISH,
                        () -> check(visit, set, path, steps, form),
                        () -> record(visit, set, path, steps, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
        if (FINISH.equals(answer.getViewName())) {
            around(answer, path, steps, steps.size());
        }
        return answer;
    }

    private static ModelAndView next(
            List<GuideStep> steps, GuidePath path, GuideForm form, BindingResult typed, int page) {
        if (form.answer() == null) {
            typed.rejectValue("answer", "guide.answer.missing");
            ModelAndView again = new ModelAndView(STEP, HttpStatus.UNPROCESSABLE_CONTENT);
            around(again, path, steps, page);
            return again;
        }
        String code = steps.get(page).code();
        return turn(steps, path, form.with(code, form.answer()), page + 1);
    }

    private static ModelAndView turn(List<GuideStep> steps, GuidePath path, GuideForm form, int to) {
        int page = Math.min(to, steps.size());
        Outcome before =
                page < steps.size() ? form.answers().get(steps.get(page).code()) : null;
        GuideForm shown = form.turned(page, before);
        ModelAndView answer = new ModelAndView(page < steps.size() ? STEP : FINISH);
        answer.addObject("guide", shown);
        answer.addObject(BindingResult.MODEL_KEY_PREFIX + "guide", new BeanPropertyBindingResult(shown, "guide"));
        around(answer, path, steps, page);
        return answer;
    }

    private static void around(ModelAndView answer, GuidePath path, List<GuideStep> steps, int page) {
        answer.addObject("path", path);
        answer.addObject("page", page);
        answer.addObject("steps", steps);
        answer.addObject("step", page < steps.size() ? steps.get(page) : null);
    }

    private List<Line> check(Visit visit, ShelfSet set, GuidePath path, List<GuideStep> steps, GuideForm form) {
        Map<String, Outcome> said = said(steps, form);
        Answers.Lines lines = answers.of("guide");
        for (GuideStep step : steps) {
            Outcome outcome = Objects.requireNonNull(said.get(step.code()));
            String tone = outcome == Outcome.PASS ? "clear" : "barred";
            if (step.isOwn()) {
                lines.decides("own", tone, "guide.own.answer", step.words(), words.say("guide.answer." + outcome));
            } else {
                lines.answered("guide." + step.key() + ".title", tone, "guide.answer." + outcome);
            }
        }
        lines.text("note", form.note());
        if (path.guide() == Guide.FLOW) {
            measured(visit, set, lines, form);
        }
        if (path.changed() != null) {
            fitted(visit, set, lines, slot(set, path.changed()), form);
        }
        return lines.at(form, visit);
    }

    private void measured(Visit visit, ShelfSet set, Answers.Lines lines, GuideForm form) {
        FlowChecks.Reading reading = reading(visit, form);
        Outcome outcome = flowChecks
                .judge(visit.viewer().site(), set.id(), reading, form.instant(visit.zone(), desk.now()))
                .outcome();
        lines.text("instrument", form.instrument())
                .figure("reading", form.reading(), "L/min")
                .figure("celsius", form.celsius(), "°C")
                .figure("hectopascals", reading.hectopascals(), "hPa")
                .answered(
                        "flowCheck.result",
                        outcome == Outcome.PASS ? "clear" : "barred",
                        "flowCheck.result." + outcome);
    }

    private void fitted(Visit visit, ShelfSet set, Answers.Lines lines, String slot, GuideForm form) {
        boolean approved = PartController.approved(set, slot, form.part());
        lines.text("part", form.part())
                .answered(
                        "part.approved",
                        approved ? "clear" : "barred",
                        approved ? "part.approved.YES" : "part.approved.NO")
                .text("lot", form.lot());
        stock.say(lines, visit.viewer().site(), form.part(), form.lot(), form.instant(visit.zone(), desk.now()));
        lines.text("serial", form.serial()).day("madeOn", form.madeOn());
        if (form.fitted() != null) {
            lines.said("fitted", "part.fitted." + form.fitted());
        }
        lines.text("fitter", form.fitter());
    }

    private RecordId record(Visit visit, ShelfSet set, GuidePath path, List<GuideStep> steps, GuideForm form) {
        Map<String, Outcome> said = said(steps, form);
        Author author = Author.at(visit.viewer());
        String slot = path.changed() == null ? null : slot(set, path.changed());
        Map<String, String> places = new HashMap<>();
        for (GuideStep step : steps) {
            if (step.part() != null) {
                places.put(step.code(), slot(set, step.part()));
            }
        }
        if (slot != null) {
            change(visit, set, slot, form);
        }
        RecordId work = works.record(
                author,
                set.id(),
                new GuidedWork(path.guide(), said, form.note()),
                slot,
                places,
                form.instant(visit.zone(), desk.now()));
        if (path.guide() == Guide.FLOW) {
            measure(visit, set, form);
        }
        return work;
    }

    private void change(Visit visit, ShelfSet set, String slot, GuideForm form) {
        if (form.part() == null || form.part().isBlank()) {
            throw new Refused("partChange.part.missing");
        }
        if (form.fitted() == null) {
            throw new Refused("guide.fitted.missing");
        }
        PartChange fitted = new PartChange(
                form.part(),
                form.lot(),
                form.serial(),
                form.madeOn(),
                form.fitted() == PartForm.Fitted.TRAINED,
                form.fitter());
        partChanges.record(
                Author.at(visit.viewer()), set.id(), slot, fitted, form.instant(visit.zone(), desk.now()), null);
    }

    private void measure(Visit visit, ShelfSet set, GuideForm form) {
        flowChecks.record(
                Author.at(visit.viewer()),
                set.id(),
                reading(visit, form),
                form.instant(visit.zone(), desk.now()),
                null);
    }

    private FlowChecks.Reading reading(Visit visit, GuideForm form) {
        if (form.instrument() == null || form.instrument().isBlank()) {
            throw new Refused("guide.instrument.missing");
        }
        if (form.reading() == null) {
            throw new Refused("guide.reading.missing");
        }
        InstrumentId instrument =
                kit.instrument(visit.viewer().site(), form.instrument()).id();
        return new FlowChecks.Reading(form.reading(), instrument, form.celsius(), form.pressure());
    }

    /** @throws Refused {@code guide.answers.open} when a step has no answer */
    private Map<String, Outcome> said(List<GuideStep> steps, GuideForm form) {
        Map<String, Outcome> said = new HashMap<>();
        for (GuideStep step : steps) {
            Outcome outcome = form.answers().get(step.code());
            if (outcome == null) {
                throw new Refused(
                        "guide.answers.open",
                        step.isOwn() ? step.words() : words.say("guide." + step.key() + ".title"));
            }
            said.put(step.code(), outcome);
        }
        return said;
    }

    private List<GuideStep> steps(Visit visit, ShelfSet set, GuidePath path) {
        SetData data = set.data();
        if (data == null) {
            throw new NotFound("guide.unknown", path.path());
        }
        return guides.steps(visit.viewer().site(), data.model(), model(set), path.guide(), path.changed(), desk.now());
    }

    private static String slot(ShelfSet set, PartClass part) {
        String own = GuidePath.slot(model(set), part);
        return own == null ? part.slot() : own;
    }

    private static GuidePath path(String guide, ShelfSet set) {
        GuidePath path = GuidePath.of(guide);
        if (path == null || !GuidePath.of(model(set)).contains(path)) {
            throw new NotFound("guide.unknown", guide);
        }
        return path;
    }

    private static ModelData model(ShelfSet set) {
        ModelData model = set.modelData();
        if (model == null) {
            throw new NotFound("guide.unknown", set.label());
        }
        return model;
    }
}
