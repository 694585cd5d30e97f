package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.TaskBases;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records the exposure assessment that a task stands on, from an instant on. */
@Controller
@RequestMapping("/sites/{site}/tasks/{code}/basis")
class BasisController {

    private static final String VIEW = "hygienist/basis";

    private final Sheets sheets;
    private final Programme programme;
    private final TaskBases bases;
    private final Lists lists;

    BasisController(Sheets sheets, Programme programme, TaskBases bases, Lists lists) {
        this.sheets = sheets;
        this.programme = programme;
        this.bases = bases;
        this.lists = lists;
    }

    @ModelAttribute("code")
    String code(Visit visit, @PathVariable String code) {
        return programme.task(visit.viewer().site(), code).code();
    }

    @ModelAttribute("mixtures")
    List<Choice> mixtures() {
        return Choice.each("basis.mixture.", TaskBasis.Mixture.values());
    }

    @ModelAttribute("atmospheres")
    List<Choice> atmospheres() {
        return Choice.each("basis.atmosphere.", TaskBasis.Atmosphere.values());
    }

    @ModelAttribute("longShifts")
    List<Choice> longShifts() {
        return Choice.each("basis.longShift.", TaskBasis.LongShift.values());
    }

    @ModelAttribute("types")
    List<Choice> types() {
        return Choice.each("kinds.InterfaceType.", InterfaceType.values());
    }

    @ModelAttribute("workRates")
    List<Choice> workRates() {
        return Choice.each("kinds.MedicalOutcomeWorkRate.", MedicalOutcome.WorkRate.values());
    }

    @Allowed(Role.HYGIENIST)
    @GetMapping
    String show(Model model) {

        model.addAttribute(
                "basis",
                new BasisForm(null, null, null, List.of(), null, null, null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.HYGIENIST)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("code") String code,
            @Valid @ModelAttribute("basis") BasisForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("basis", VIEW, () -> record(visit, code, form)));
    }

    private RecordId record(Visit visit, String code, BasisForm form) {

        TaskId task = programme.task(visit.viewer().site(), code).id();
        return bases.record(
                Author.at(visit.viewer()), task, form.toFact(lists), form.instant(visit.zone(), sheets.now()), null);
    }
}
