package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.PreUseChecks;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Line;
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

/** The wearer looks the set in hand over and puts it on: only what the model has is asked, nothing is chosen beforehand. */
@Controller
@RequestMapping("/sites/{site}/today/check/{label}")
class PreUseCheckController {

    private static final String VIEW = "worker/pre-use-check";

    private final Sheets sheets;
    private final Mine mine;
    private final PreUseChecks checks;
    private final Indicators indicators;
    private final Words words;
    private final Show show;

    PreUseCheckController(
            Sheets sheets, Mine mine, PreUseChecks checks, Indicators indicators, Words words, Show show) {
        this.sheets = sheets;
        this.mine = mine;
        this.checks = checks;
        this.indicators = indicators;
        this.words = words;
        this.show = show;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return mine.inHand(visit, label);
    }

    /** @throws NotFound {@code set.unknown} when nothing is on record of the set's model */
    @ModelAttribute("device")
    ModelData device(@ModelAttribute("set") ShelfSet set) {
        if (set.modelData() == null) {
            throw new NotFound("set.unknown", set.label());
        }
        return set.modelData();
    }

    /** The instruments that are valid now; none for a device without a flow. */
    @ModelAttribute("valid")
    List<Indicators.Indicator> valid(Visit visit, @ModelAttribute("device") ModelData device) {
        return device.minimumFlow() == null
                ? List.of()
                : indicators.valid(visit.viewer().site(), device, mine.now());
    }

    /** Each indicator with the number that it must show. */
    @ModelAttribute("indicators")
    List<Choice> indicators(
            Visit visit,
            @ModelAttribute("device") ModelData device,
            @ModelAttribute("valid") List<Indicators.Indicator> valid) {
        BigDecimal minimum = minimum(visit, device);
        if (minimum == null) {
            return List.of();
        }
        List<Choice> choices = new ArrayList<>();
        choices.add(Choice.named(
                PreUseCheckForm.OWN, words.say("preUseCheck.indicator.own", show.figure(minimum, "L/min"))));
        for (Indicators.Indicator one : valid) {
            BigDecimal required = one.required() == null ? minimum : one.required();
            choices.add(Choice.named(
                    one.code(), words.say("preUseCheck.indicator.one", one.code(), show.figure(required, "L/min"))));
        }
        return choices;
    }

    private @Nullable BigDecimal minimum(Visit visit, ModelData device) {
        return device.minimumFlow() == null
                ? null
                : indicators.minimum(visit.viewer().site(), device, mine.now());
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("preUseCheck.", Outcome.values());
    }

    @Allowed(Role.WORKER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("preUseCheck", PreUseCheckForm.empty());
        return VIEW;
    }

    @Allowed(Role.WORKER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @ModelAttribute("device") ModelData device,
            @ModelAttribute("valid") List<Indicators.Indicator> valid,
            @Valid @ModelAttribute("preUseCheck") PreUseCheckForm form,
            BindingResult typed) {
        requireWhatTheModelHas(device, form, typed);
        Indicators.Indicator indicator = indicator(valid, form, typed);
        PreUseCheck check = form.check(
                indicator == null ? null : indicator.id(),
                indicator == null || indicator.required() == null ? minimum(visit, device) : indicator.required());
        boolean passed = StopController.doing(check) == null;
        ModelAndView page = sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("preUseCheck", VIEW, () -> record(visit, set, check), () -> follows(passed)),
                told -> "/sites/" + visit.siteCode() + (passed ? "/today?done=" : "/today/stop/") + told);
        page.addObject("code", set.label());
        if (page.getModel().get("lines") instanceof List<?> lines) {
            page.addObject("lines", lines.stream().map(this::worded).toList());
        }
        return page;
    }

    /** The sign that stands for the set's own indicator in the form, in words. */
    private Object worded(Object line) {
        boolean own = line.equals(new Line("preUseCheck.indicator", PreUseCheckForm.OWN));
        return own ? new Line("preUseCheck.indicator", words.say("preUseCheck.indicator.ofSet")) : line;
    }

    /** None for the one that came with the set. One that is not offered is refused. */
    private static Indicators.@Nullable Indicator indicator(
            List<Indicators.Indicator> valid, PreUseCheckForm form, BindingResult typed) {
        String code = form.indicator();
        if (code == null || code.equals(PreUseCheckForm.OWN)) {
            return null;
        }
        for (Indicators.Indicator one : valid) {
            if (one.code().equals(code)) {
                return one;
            }
        }
        typed.rejectValue("indicator", "preUseCheck.indicator.unknown");
        return null;
    }

    private static void requireWhatTheModelHas(ModelData device, PreUseCheckForm form, BindingResult typed) {
        Set<PreUseCheck.Item> asked = PreUseCheck.askedOf(device.type());
        require(typed, "visor", asked.contains(PreUseCheck.Item.VISOR), form.visor());
        require(typed, "exhalationValve", asked.contains(PreUseCheck.Item.EXHALATION_VALVE), form.exhalationValve());
        require(typed, "hose", asked.contains(PreUseCheck.Item.HOSE), form.hose());
        require(typed, "blower", asked.contains(PreUseCheck.Item.BLOWER), form.blower());
        require(typed, "filter", asked.contains(PreUseCheck.Item.FILTER), form.filter());
        require(typed, "battery", asked.contains(PreUseCheck.Item.BATTERY), form.battery());
        require(typed, "coupling", asked.contains(PreUseCheck.Item.COUPLING), form.coupling());
        require(typed, "chargePercent", device.type().hasBlower(), form.chargePercent());
        require(typed, "indicator", device.minimumFlow() != null, form.indicator());
        require(typed, "reading", device.minimumFlow() != null, form.reading());
        require(typed, "alarms", asked.contains(PreUseCheck.Item.ALARMS), form.alarms());
        require(typed, "skin", device.sealsOnSkin(), form.skin());
    }

    private static void require(BindingResult typed, String field, boolean asked, @Nullable Object answer) {
        if (asked && answer == null && !typed.hasFieldErrors(field)) {
            typed.rejectValue(field, "NotNull");
        }
    }

    private RecordId record(Visit visit, ShelfSet set, PreUseCheck check) {
        return checks.record(
                        Author.at(visit.viewer()), set.id(), mine.self(visit).id(), check, mine.now(), null)
                .record();
    }

    private List<Line> follows(boolean passed) {
        return List.of(new Line("preUseCheck.result", words.say(passed ? "preUseCheck.passed" : "preUseCheck.failed")));
    }
}
