package org.hoodkeeper.web.record;

import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.sheet.Persons;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** Asks for whom or what something is recorded, and leads to its page. */
@Controller
class RecordController {

    private final Persons persons;
    private final Programme programme;
    private final Kit kit;

    RecordController(Persons persons, Programme programme, Kit kit) {
        this.persons = persons;
        this.programme = programme;
        this.kit = kit;
    }

    @Allowed({Role.OFFICER, Role.TRAINER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/record")
    String show(Visit visit, Model model) {
        SiteId site = visit.viewer().site();
        model.addAttribute("people", persons.all(visit));
        model.addAttribute(
                "tasks", programme.tasks(site).stream().map(task -> task.code()).toList());
        model.addAttribute(
                "models", kit.models(site).stream().map(held -> held.code()).toList());
        model.addAttribute("ofPerson", Doing.ofPerson(visit.viewer()));
        model.addAttribute("ofTask", Doing.ofTask(visit.viewer()));
        model.addAttribute("officer", visit.viewer().is(Role.OFFICER));
        model.addAttribute("hygienist", visit.viewer().is(Role.HYGIENIST));
        return "record/record";
    }
}
