package org.hoodkeeper.web.administrator;

import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.SecondPerson;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;

/** What waits for a second person: confirm or decline. */
@Controller
@RequestMapping("/sites/{site}/requests")
class RequestsController {

    private static final String PAGE = "administrator/requests";

    private final SecondPerson secondPerson;

    RequestsController(SecondPerson secondPerson) {
        this.secondPerson = secondPerson;
    }

    @Allowed({Role.OFFICER, Role.ADMINISTRATOR})
    @GetMapping
    String list(Visit visit, Model model) {
        fill(visit, model);
        return PAGE;
    }

    /** Shows the link on the answer itself and keeps it nowhere. */
    @Allowed({Role.OFFICER, Role.ADMINISTRATOR})
    @PostMapping("/{asked}/confirm")
    String confirm(Visit visit, @PathVariable UUID asked, Model model) {
        String secret = secondPerson.confirm(asked, visit.viewer());
        model.addAttribute("link", AccountController.choosePassword(secret));
        fill(visit, model);
        return PAGE;
    }

    @Allowed({Role.OFFICER, Role.ADMINISTRATOR})
    @PostMapping("/{asked}/decline")
    String decline(Visit visit, @PathVariable UUID asked) {
        secondPerson.decline(asked, visit.viewer());
        return "redirect:/sites/" + visit.siteCode() + "/requests";
    }

    private void fill(Visit visit, Model model) {
        model.addAttribute("waiting", secondPerson.open(visit.viewer().site()));
        model.addAttribute("viewer", visit.viewer());
        model.addAttribute("zone", visit.zone());
    }
}
