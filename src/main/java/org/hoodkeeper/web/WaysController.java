package org.hoodkeeper.web;

import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** What the store does all day, and what the officer proves with: one page of ways each. */
@Controller
class WaysController {

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/store")
    String store(Visit visit, Model page) {
        return show(Way.Overview.STORE, visit, page);
    }

    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/proof")
    String proof(Visit visit, Model page) {
        return show(Way.Overview.PROOF, visit, page);
    }

    private static String show(Way.Overview overview, Visit visit, Model page) {
        page.addAttribute("overview", overview);
        page.addAttribute("ways", Way.of(overview, visit.viewer()));
        return "ways";
    }
}
