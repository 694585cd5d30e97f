package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.MeasuredConditions;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.programme.Programme;
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

/** Records the heat measured at a task. */
@Controller
@RequestMapping("/sites/{site}/tasks/{code}/condition")
class ConditionController {

    private static final String VIEW = "hygienist/condition";

    private final Sheets sheets;
    private final Programme programme;
    private final MeasuredConditions conditions;

    ConditionController(Sheets sheets, Programme programme, MeasuredConditions conditions) {
        this.sheets = sheets;
        this.programme = programme;
        this.conditions = conditions;
    }

    @ModelAttribute("code")
    String code(Visit visit, @PathVariable String code) {
        return programme.task(visit.viewer().site(), code).code();
    }

    @Allowed({Role.HYGIENIST, Role.SUPERVISOR, Role.OFFICER})
    @GetMapping
    String show(Model model) {

        model.addAttribute("condition", new ConditionForm(null, null, null));
        return VIEW;
    }

    @Allowed({Role.HYGIENIST, Role.SUPERVISOR, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("code") String code,
            @Valid @ModelAttribute("condition") ConditionForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("condition", VIEW, () -> record(visit, code, form)));
    }

    private RecordId record(Visit visit, String code, ConditionForm form) {

        return conditions.record(
                Author.at(visit.viewer()),
                programme.task(visit.viewer().site(), code).id(),
                form.toFact(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
