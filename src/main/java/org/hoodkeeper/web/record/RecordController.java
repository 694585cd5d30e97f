package org.hoodkeeper.web.record;

import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.sheet.Persons;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** Asks for whom or what something is recorded, and leads to its page. */
@Controller
class RecordController {

    private final Persons persons;
    private final Programme programme;

    RecordController(Persons persons, Programme programme) {
        this.persons = persons;
        this.programme = programme;
    }

    @Allowed({Role.OFFICER, Role.TRAINER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/record")
    String show(
            Visit visit,
            @RequestParam(required = false) @Nullable String q,
            @RequestParam(required = false) @Nullable Integer page,
            Model model) {
        SiteId site = visit.viewer().site();
        model.addAttribute("roll", persons.roll(visit, q, page));
        model.addAttribute(
                "tasks", programme.tasks(site).stream().map(task -> task.code()).toList());
        model.addAttribute("ofPerson", Doing.ofPerson(visit.viewer()));
        model.addAttribute("ofTask", Doing.ofTask(visit.viewer()));
        model.addAttribute("officer", visit.viewer().is(Role.OFFICER));
        model.addAttribute("hygienist", visit.viewer().is(Role.HYGIENIST));
        return "record/record";
    }
}
