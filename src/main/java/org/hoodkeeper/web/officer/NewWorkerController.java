package org.hoodkeeper.web.officer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Postings;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Takes somebody on the site's list. */
@Controller
@RequestMapping("/sites/{site}/new-worker")
class NewWorkerController {

    private static final String VIEW = "officer/new-worker";

    private final Sheets sheets;
    private final People people;
    private final Postings postings;
    private final Programme programme;
    private final AuditTrail audit;

    NewWorkerController(Sheets sheets, People people, Postings postings, Programme programme, AuditTrail audit) {
        this.sheets = sheets;
        this.people = people;
        this.postings = postings;
        this.programme = programme;
        this.audit = audit;
    }

    @ModelAttribute("tasks")
    List<Choice> tasks(Visit visit) {
        return programme.tasks(visit.viewer().site()).stream()
                .map(task -> Choice.named(task.code(), task.code()))
                .toList();
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("newWorker", NewWorkerForm.empty());
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("newWorker") NewWorkerForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("newWorker", VIEW, () -> record(visit, form)),
                added -> "/sites/" + visit.siteCode() + "/workers/" + form.number());
    }

    private WorkerId record(Visit visit, NewWorkerForm form) {
        SiteId site = visit.viewer().site();
        WorkerId added = people.register(
                site, Objects.requireNonNull(form.number()), Objects.requireNonNull(form.name()), form.employer());
        audit.record(
                site, AuditEntry.of("worker.added").by(visit.viewer().account()).about(added));
        Instant from = form.instant(visit.zone(), sheets.now());
        Instant until = end(visit, form, from);
        if (form.task() != null) {
            TaskId task = programme.task(site, form.task()).id();
            postings.post(Author.at(visit.viewer()), added, task, from, until, null);
        }
        return added;
    }

    private static @Nullable Instant end(Visit visit, NewWorkerForm form, Instant from) {
        if (form.lastDay() == null) {
            return null;
        }
        if (form.task() == null) {
            throw new Refused("newWorker.task.missing", form.lastDay());
        }
        Instant end = Days.endOf(form.lastDay(), visit.zone());
        if (!end.isAfter(from)) {
            throw new Refused("posting.lastDay.order", form.lastDay(), from);
        }
        return end;
    }
}
