package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.math.BigDecimal;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
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

/** Records a flow check of a set. The page says first what each instrument must show. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/flow-check")
class FlowCheckController {

    private final Desk desk;
    private final Answers answers;
    private final FlowChecks flowChecks;
    private final Indicators indicators;
    private final Kit kit;
    private final Show show;
    private final Words words;

    FlowCheckController(
            Desk desk, Answers answers, FlowChecks flowChecks, Indicators indicators, Kit kit, Show show, Words words) {
        this.desk = desk;
        this.answers = answers;
        this.flowChecks = flowChecks;
        this.indicators = indicators;
        this.kit = kit;
        this.show = show;
        this.words = words;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("instruments")
    List<Choice> instruments(Visit visit, @ModelAttribute("set") ShelfSet set) {
        return indicators.valid(visit.viewer().site(), set.modelData(), desk.now()).stream()
                .map(this::choice)
                .toList();
    }

    private Choice choice(Indicators.Indicator indicator) {
        BigDecimal required = indicator.required();
        return Choice.named(
                indicator.code(),
                required == null
                        ? indicator.code()
                        : words.say("flowCheck.instrument.required", indicator.code(), show.figure(required, "L/min")));
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("flowCheck", new FlowCheckForm(null, null, null, null, null, null, null));
        return "store/flow-check";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("flowCheck") FlowCheckForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "flowCheck",
                        "store/flow-check",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, FlowCheckForm form) {
        FlowChecks.Reading reading = reading(visit, form);
        FlowCheck judged =
                flowChecks.judge(visit.viewer().site(), set.id(), reading, form.instant(visit.zone(), desk.now()));
        return answers.of("flowCheck")
                .text("instrument", form.instrument())
                .figure("reading", form.reading(), "L/min")
                .figure("celsius", form.celsius(), "°C")
                .figure("hectopascals", reading.hectopascals(), "hPa")
                .figure("required", required(visit, set, reading), "L/min")
                .figure("corrected", judged.corrected(), "L/min")
                .figure("minimum", judged.minimum(), "L/min")
                .decides(
                        "result",
                        judged.outcome() == Outcome.PASS ? "clear" : "barred",
                        "flowCheck.result." + judged.outcome())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, FlowCheckForm form) {
        return flowChecks
                .record(
                        Author.at(visit.viewer()),
                        set.id(),
                        reading(visit, form),
                        form.instant(visit.zone(), desk.now()),
                        null)
                .record();
    }

    private FlowChecks.Reading reading(Visit visit, FlowCheckForm form) {
        InstrumentId instrument = kit.instrument(visit.viewer().site(), Objects.requireNonNull(form.instrument()))
                .id();
        return new FlowChecks.Reading(
                Objects.requireNonNull(form.reading()), instrument, form.celsius(), form.pressure());
    }

    private @Nullable BigDecimal required(Visit visit, ShelfSet set, FlowChecks.Reading reading) {
        return set.modelData() == null
                ? null
                : indicators.required(
                        visit.viewer().site(),
                        reading.instrument(),
                        set.modelData(),
                        reading.celsius(),
                        reading.hectopascals(),
                        desk.now());
    }
}
