package org.hoodkeeper.web.administrator;

import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.AccountLine;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.SecondPerson;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.people.People;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Refusals;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Who may sign in on a site, and adding one more. */
@Controller
@RequestMapping("/sites/{site}/accounts")
class AccountsController {

    private static final String NEW = "administrator/new-account";
    private static final String KNOWN = "administrator/known-account";

    private final Accounts accounts;
    private final People people;
    private final SecondPerson secondPerson;
    private final Refusals refusals;

    AccountsController(Accounts accounts, People people, SecondPerson secondPerson, Refusals refusals) {
        this.accounts = accounts;
        this.people = people;
        this.secondPerson = secondPerson;
        this.refusals = refusals;
    }

    @ModelAttribute("roleChoices")
    List<Choice> roleChoices() {
        return Choice.each("kinds.Role.", Role.values());
    }

    @Allowed(Role.ADMINISTRATOR)
    @GetMapping
    String list(Visit visit, Model model) {
        List<AccountLine> lines = accounts.on(visit.viewer().site());
        model.addAttribute("lines", lines);
        model.addAttribute(
                "able",
                lines.stream()
                        .filter(line -> line.hasPassword() && !line.isDisabled())
                        .count());
        model.addAttribute("waiting", secondPerson.open(visit.viewer().site()).size());
        return "administrator/accounts";
    }

    @Allowed(Role.ADMINISTRATOR)
    @GetMapping("/new")
    String showNew(Model model) {
        model.addAttribute("newAccount", new AccountForm("", "", List.of(), null, null));
        return NEW;
    }

    @Allowed(Role.ADMINISTRATOR)
    @PostMapping
    ModelAndView add(Visit visit, @Valid @ModelAttribute("newAccount") AccountForm form, BindingResult result) {
        if (result.hasErrors()) {
            return new ModelAndView(NEW, HttpStatus.UNPROCESSABLE_CONTENT);
        }
        try {
            AccountId added = accounts.add(form.toAccount(visit.viewer().site(), people), visit.viewer());
            return to(visit, added);
        } catch (Refused refused) {
            refusals.show(refused, result);
            return new ModelAndView(NEW, HttpStatus.UNPROCESSABLE_CONTENT);
        }
    }

    @Allowed(Role.ADMINISTRATOR)
    @GetMapping("/known")
    String showKnown(Model model) {
        model.addAttribute("knownAccount", new KnownAccountForm("", null, null, null));
        return KNOWN;
    }

    @Allowed(Role.ADMINISTRATOR)
    @PostMapping("/known")
    ModelAndView addKnown(
            Visit visit, @Valid @ModelAttribute("knownAccount") KnownAccountForm form, BindingResult result) {
        if (result.hasErrors()) {
            return new ModelAndView(KNOWN, HttpStatus.UNPROCESSABLE_CONTENT);
        }
        try {
            AccountId added = accounts.addKnown(
                    form.login(), List.of(form.toGrant(visit.viewer().site(), people)), visit.viewer());
            return to(visit, added);
        } catch (Refused refused) {
            refusals.show(refused, result);
            return new ModelAndView(KNOWN, HttpStatus.UNPROCESSABLE_CONTENT);
        }
    }

    private static ModelAndView to(Visit visit, AccountId account) {
        return new ModelAndView("redirect:/sites/" + visit.siteCode() + "/accounts/" + account);
    }
}
