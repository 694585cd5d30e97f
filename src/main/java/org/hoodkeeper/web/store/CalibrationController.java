package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Calibrations;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Instrument;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.Choice;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records a calibration of an instrument. */
@Controller
@RequestMapping("/sites/{site}/instruments/{code}/calibration")
class CalibrationController {

    private final Desk desk;
    private final Answers answers;
    private final Calibrations calibrations;
    private final Kit kit;

    CalibrationController(Desk desk, Answers answers, Calibrations calibrations, Kit kit) {
        this.desk = desk;
        this.answers = answers;
        this.calibrations = calibrations;
        this.kit = kit;
    }

    @ModelAttribute("instrument")
    Instrument instrument(Visit visit, @PathVariable String code) {
        return kit.instrument(visit.viewer().site(), code);
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("calibration.outcome.", Outcome.values());
    }

    @ModelAttribute("asFounds")
    List<Choice> asFounds() {
        return Choice.each("calibration.asFound.", CalibrationForm.AsFound.values());
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute(
                "calibration", new CalibrationForm(null, null, null, null, null, null, null, null, null, null, null));
        return "store/calibration";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("calibration") CalibrationForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "calibration",
                        "store/calibration",
                        () -> check(visit, form),
                        () -> record(visit, code, form),
                        "/sites/" + visit.siteCode() + "/instruments/" + code));
    }

    private List<Line> check(Visit visit, CalibrationForm form) {
        return answers.of("calibration")
                .choice("outcome", form.outcome())
                .choice("asFound", form.asFound())
                .figure("asFoundFactor", form.asFoundFactor(), "")
                .figure("factor", form.factor(), "")
                .figure("uncertainty", form.uncertainty(), "L/min")
                .figure("celsius", form.celsius(), "°C")
                .figure("hectopascals", form.hectopascals(), "hPa")
                .day("lastDay", form.lastDay())
                .text("certificate", form.certificate())
                .at(form, visit);
    }

    private RecordId record(Visit visit, String code, CalibrationForm form) {
        return calibrations.record(
                Author.at(visit.viewer()),
                instrument(visit, code).id(),
                form.toFact(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
