package org.hoodkeeper.web.officer;

import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Decisions;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** What the rules leave to the site, with what it decided or what counts until then. */
@Controller
class DecisionsController {

    private final Decisions decisions;
    private final DecisionPoints points;
    private final Sheets sheets;

    DecisionsController(Decisions decisions, DecisionPoints points, Sheets sheets) {
        this.decisions = decisions;
        this.points = points;
        this.sheets = sheets;
    }

    @Allowed({Role.OFFICER, Role.HYGIENIST, Role.STOREKEEPER, Role.HEALTH, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/decisions")
    String list(Visit visit, Model model) {
        Decisions.Points all = decisions.of(visit.viewer().site(), sheets.now());
        model.addAttribute("ruleSet", all.ruleSet());
        model.addAttribute("points", all.points().stream().map(points::shown).toList());
        model.addAttribute("officer", visit.viewer().is(Role.OFFICER));
        return "officer/decisions";
    }
}
