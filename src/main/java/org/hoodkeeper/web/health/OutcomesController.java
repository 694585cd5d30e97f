package org.hoodkeeper.web.health;

import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Persons;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** The health role's first page: whose reports wait, and for whom an outcome can be recorded. */
@Controller
class OutcomesController {

    private final Reports reports;
    private final Persons persons;

    OutcomesController(Reports reports, Persons persons) {
        this.reports = reports;
        this.persons = persons;
    }

    @Allowed(Role.HEALTH)
    @GetMapping("/sites/{site}/outcomes")
    String show(Visit visit, Model model) {
        model.addAttribute("waiting", reports.waiting(visit));
        model.addAttribute("people", persons.all(visit));
        return "health/outcomes";
    }
}
