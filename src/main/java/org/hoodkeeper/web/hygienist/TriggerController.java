package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.TaskTriggers;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.TaskId;
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

/** Records what puts the assessment of a task in question; nobody is cleared for it until it is settled. */
@Controller
@RequestMapping("/sites/{site}/tasks/{code}/trigger")
class TriggerController {

    private static final String VIEW = "hygienist/trigger";

    private final Sheets sheets;
    private final Programme programme;
    private final TaskTriggers triggers;

    TriggerController(Sheets sheets, Programme programme, TaskTriggers triggers) {
        this.sheets = sheets;
        this.programme = programme;
        this.triggers = triggers;
    }

    @ModelAttribute("code")
    String code(Visit visit, @PathVariable String code) {
        return programme.task(visit.viewer().site(), code).code();
    }

    @Allowed({Role.HYGIENIST, Role.OFFICER, Role.SUPERVISOR})
    @GetMapping
    String show(Model model) {

        model.addAttribute("trigger", new TriggerForm(null, null, null, null));
        return VIEW;
    }

    @Allowed({Role.HYGIENIST, Role.OFFICER, Role.SUPERVISOR})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("code") String code,
            @Valid @ModelAttribute("trigger") TriggerForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("trigger", VIEW, () -> record(visit, code, form)));
    }

    private RecordId record(Visit visit, String code, TriggerForm form) {

        TaskId task = programme.task(visit.viewer().site(), code).id();
        return triggers.open(
                Author.at(visit.viewer()),
                task,
                Objects.requireNonNull(form.what()),
                form.note(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
