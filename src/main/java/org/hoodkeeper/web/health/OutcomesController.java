package org.hoodkeeper.web.health;

import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Persons;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

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
    String show(
            Visit visit,
            @RequestParam(required = false) @Nullable String q,
            @RequestParam(required = false) @Nullable Integer page,
            Model model) {
        model.addAttribute("waiting", reports.waiting(visit));
        model.addAttribute("roll", persons.roll(visit, q, page));
        return "health/outcomes";
    }
}
