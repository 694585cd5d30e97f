package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.PreUseChecks;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
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

/** The wearer looks the set over and puts it on: only what the model has is asked, nothing is chosen beforehand. */
@Controller
@RequestMapping("/sites/{site}/today/check/{label}")
class PreUseCheckController {

    private static final String VIEW = "worker/pre-use-check";

    private final Sheets sheets;
    private final PreUseChecks checks;
    private final Kit kit;
    private final TodayLines lines;
    private final Words words;
    private final Show show;

    PreUseCheckController(Sheets sheets, PreUseChecks checks, Kit kit, TodayLines lines, Words words, Show show) {
        this.sheets = sheets;
        this.checks = checks;
        this.kit = kit;
        this.lines = lines;
        this.words = words;
        this.show = show;
    }

    /** @throws NotFound {@code set.unknown} for a set that this site does not hold, or of which nothing is on record */
    @ModelAttribute("device")
    ModelData device(Visit visit, @PathVariable String label) {
        ModelData model = lines.model(visit.viewer().site(), label, sheets.now());
        if (model == null) {
            throw new NotFound("set.unknown", label);
        }
        return model;
    }

    /** The number the flow must show; none for a device without a flow. */
    @ModelAttribute("minimum")
    String minimum(@ModelAttribute("device") ModelData device) {
        return device.minimumFlow() == null ? "" : show.figure(device.minimumFlow(), "L/min");
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("preUseCheck.", Outcome.values());
    }

    @Allowed(Role.WORKER)
    @GetMapping
    String show(@PathVariable String label, Model page) {
        page.addAttribute("label", label);
        page.addAttribute("preUseCheck", PreUseCheckForm.empty());
        return VIEW;
    }

    @Allowed(Role.WORKER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String label,
            @ModelAttribute("device") ModelData device,
            @Valid @ModelAttribute("preUseCheck") PreUseCheckForm form,
            BindingResult typed) {
        requireWhatTheModelHas(device, form, typed);
        ModelAndView page = sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("preUseCheck", VIEW, () -> record(visit, label, device, form), () -> follows(device, form)));
        page.addObject("label", label);
        return page;
    }

    private static void requireWhatTheModelHas(ModelData device, PreUseCheckForm form, BindingResult typed) {
        require(
                typed,
                "exhalationValve",
                device.type().isTightFitting() || device.type().isHood(),
                form.exhalationValve());
        require(typed, "visor", device.type().isHood() || device.type().isFullFace(), form.visor());
        require(typed, "hose", device.type().hasFlow(), form.hose());
        require(typed, "blower", device.type().hasBlower(), form.blower());
        require(typed, "filter", device.type().filtersRoomAir(), form.filter());
        require(typed, "coupling", device.type().isAirFed(), form.coupling());
        require(typed, "alarms", device.type().hasFlow(), form.alarms());
        require(typed, "skin", device.sealsOnSkin(), form.skin());
        require(typed, "reading", device.minimumFlow() != null, form.reading());
        require(typed, "charge", device.type().hasBlower(), form.charge());
    }

    private static void require(BindingResult typed, String field, boolean asked, @Nullable Object answer) {
        if (asked && answer == null && !typed.hasFieldErrors(field)) {
            typed.rejectValue(field, "NotNull");
        }
    }

    private RecordId record(Visit visit, String label, ModelData device, PreUseCheckForm form) {
        WorkerId worker = visit.viewer().worker();
        if (worker == null) {
            throw new NotFound("worker.unknown", "–");
        }
        return checks.record(
                        Author.at(visit.viewer()),
                        kit.set(visit.viewer().site(), label).id(),
                        worker,
                        form.check(device.minimumFlow()),
                        sheets.now(),
                        null)
                .record();
    }

    private List<Line> follows(ModelData device, PreUseCheckForm form) {
        List<Line> follows = new ArrayList<>();
        BigDecimal minimum = device.minimumFlow();
        boolean passed = form.check(minimum).passed() && form.placement() == Outcome.PASS;
        follows.add(new Line("preUseCheck.result", words.say(passed ? "preUseCheck.passed" : "preUseCheck.failed")));
        return follows;
    }
}
