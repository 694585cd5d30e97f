package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.TaskTriggers;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
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

/** Settles what put the assessment of a task in question. */
@Controller
@RequestMapping("/sites/{site}/tasks/{code}/trigger/end")
class TriggerEndController {

    private static final String VIEW = "hygienist/trigger-end";

    private final Sheets sheets;
    private final Programme programme;
    private final TaskTriggers triggers;
    private final Show show;
    private final Words words;

    TriggerEndController(Sheets sheets, Programme programme, TaskTriggers triggers, Show show, Words words) {
        this.sheets = sheets;
        this.programme = programme;
        this.triggers = triggers;
        this.show = show;
        this.words = words;
    }

    @ModelAttribute("code")
    String code(Visit visit, @PathVariable String code) {
        return programme.task(visit.viewer().site(), code).code();
    }

    @ModelAttribute("open")
    List<Choice> open(Visit visit, @ModelAttribute("code") String code) {
        SiteId site = visit.viewer().site();
        return triggers.open(site, programme.task(site, code).id()).stream()
                .map(told -> Choice.named(
                        told.id().toString(),
                        words.say(
                                "triggerEnd.named",
                                show.instant(told.from(), visit.zone()),
                                told.fact().what())))
                .toList();
    }

    @Allowed({Role.OFFICER, Role.HYGIENIST})
    @GetMapping
    String show(Model model) {

        model.addAttribute("triggerEnd", new TriggerEndForm(null, null, null, null));
        return VIEW;
    }

    @Allowed({Role.OFFICER, Role.HYGIENIST})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("code") String code,
            @Valid @ModelAttribute("triggerEnd") TriggerEndForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("triggerEnd", VIEW, () -> record(visit, code, form)));
    }

    private RecordId record(Visit visit, String code, TriggerEndForm form) {

        TaskId task = programme.task(visit.viewer().site(), code).id();
        return triggers.close(
                Author.at(visit.viewer()),
                task,
                Sheets.recordId(Objects.requireNonNull(form.opened())),
                Objects.requireNonNull(form.note()),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
