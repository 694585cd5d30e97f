package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Person;
import org.hoodkeeper.web.sheet.Persons;
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
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Records that a worker goes in with a set: by the worker, or at the gate. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/wear/entry")
class WearEntryController {

    private static final String VIEW = "worker/wear-entry";

    private final Sheets sheets;
    private final Persons persons;
    private final GateEntry gate;
    private final Kit kit;
    private final Programme programme;

    WearEntryController(Sheets sheets, Persons persons, GateEntry gate, Kit kit, Programme programme) {
        this.sheets = sheets;
        this.persons = persons;
        this.gate = gate;
        this.kit = kit;
        this.programme = programme;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.selfOr(visit, number, Role.SUPERVISOR);
    }

    @ModelAttribute("tasks")
    List<Choice> tasks(Visit visit) {
        return programme.tasks(visit.viewer().site()).stream()
                .map(task -> Choice.named(task.code(), task.code()))
                .toList();
    }

    @Allowed(value = Role.SUPERVISOR, self = true)
    @GetMapping
    String show(
            @RequestParam(required = false) @Nullable String set,
            @RequestParam(required = false) @Nullable String task,
            Model model) {
        model.addAttribute("wearEntry", new WearEntryForm(set, task, null, null));
        return VIEW;
    }

    @Allowed(value = Role.SUPERVISOR, self = true)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("wearEntry") WearEntryForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "wearEntry",
                        VIEW,
                        () -> gate.enter(visit.viewer(), way(visit, person, form)),
                        () -> gate.says(visit.viewer(), way(visit, person, form))));
    }

    private GateEntry.Way way(Visit visit, Person person, WearEntryForm form) {
        SiteId site = visit.viewer().site();
        return new GateEntry.Way(
                person.id(),
                programme.task(site, Objects.requireNonNull(form.task())).id(),
                kit.set(site, Objects.requireNonNull(form.set())).id(),
                form.instant(visit.zone(), sheets.now()));
    }
}
