package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
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
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Takes a task on the site's list; whoever may assess it goes on to its assessment. */
@Controller
@RequestMapping("/sites/{site}/new-task")
class NewTaskController {

    private static final String VIEW = "hygienist/new-task";

    private final Sheets sheets;
    private final Programme programme;
    private final AuditTrail audit;

    NewTaskController(Sheets sheets, Programme programme, AuditTrail audit) {
        this.sheets = sheets;
        this.programme = programme;
        this.audit = audit;
    }

    @Allowed({Role.OFFICER, Role.HYGIENIST})
    @GetMapping
    String show(Model page) {
        page.addAttribute("newTask", new NewTaskForm(null));
        return VIEW;
    }

    @Allowed({Role.OFFICER, Role.HYGIENIST})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("newTask") NewTaskForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("newTask", VIEW, () -> record(visit, form)),
                added -> onward(visit, Objects.requireNonNull(form.code())));
    }

    private TaskId record(Visit visit, NewTaskForm form) {
        TaskId added =
                programme.addTask(Author.at(visit.viewer()), Objects.requireNonNull(form.code()), null, sheets.now());
        audit.record(
                visit.viewer().site(),
                AuditEntry.of("task.added").by(visit.viewer().account()).about(added));
        return added;
    }

    private static String onward(Visit visit, String code) {
        String site = "/sites/" + visit.siteCode();
        return visit.viewer().is(Role.HYGIENIST)
                ? site + "/tasks/" + code + "/basis"
                : site + "/register?added=" + code;
    }
}
