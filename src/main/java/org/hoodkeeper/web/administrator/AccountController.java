package org.hoodkeeper.web.administrator;

import jakarta.validation.Valid;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hoodkeeper.access.AccountSessions;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.CommandTokens;
import org.hoodkeeper.access.PasswordLinks;
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
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;

/** One account on a site: its roles, whether it may sign in, its password, sessions and tokens. */
@Controller
@RequestMapping("/sites/{site}/accounts/{account}")
class AccountController {

    private static final String PAGE = "administrator/account";

    private final Accounts accounts;
    private final People people;
    private final AccountSessions sessions;
    private final PasswordLinks passwordLinks;
    private final CommandTokens tokens;
    private final Refusals refusals;

    AccountController(
            Accounts accounts,
            People people,
            AccountSessions sessions,
            PasswordLinks passwordLinks,
            CommandTokens tokens,
            Refusals refusals) {
        this.accounts = accounts;
        this.people = people;
        this.sessions = sessions;
        this.passwordLinks = passwordLinks;
        this.tokens = tokens;
        this.refusals = refusals;
    }

    @ModelAttribute("roleChoices")
    List<Choice> roleChoices() {
        return Choice.each("kinds.Role.", Role.values());
    }

    @Allowed(Role.ADMINISTRATOR)
    @GetMapping
    String show(Visit visit, @PathVariable UUID account, @ModelAttribute("grant") GrantForm form, Model model) {
        fill(visit, account, model);
        return PAGE;
    }

    @Allowed(Role.ADMINISTRATOR)
    @PostMapping("/roles")
    ModelAndView give(
            Visit visit,
            @PathVariable UUID account,
            @Valid @ModelAttribute("grant") GrantForm form,
            BindingResult result,
            Model model) {
        if (result.hasErrors()) {
            return again(visit, account, model);
        }
        return attempt(
                visit,
                account,
                result,
                model,
                () -> accounts.give(
                        new AccountId(account), form.toGrant(visit.viewer().site(), people), visit.viewer()));
    }

    @Allowed(Role.ADMINISTRATOR)
    @PostMapping("/roles/{role}/take")
    ModelAndView take(
            Visit visit,
            @PathVariable UUID account,
            @PathVariable Role role,
            @ModelAttribute("grant") GrantForm form,
            BindingResult result,
            Model model) {
        return attempt(
                visit, account, result, model, () -> accounts.take(new AccountId(account), role, visit.viewer()));
    }

    @Allowed(Role.ADMINISTRATOR)
    @PostMapping("/disable")
    ModelAndView disable(
            Visit visit,
            @PathVariable UUID account,
            @ModelAttribute("grant") GrantForm form,
            BindingResult result,
            Model model) {
        return attempt(visit, account, result, model, () -> accounts.disable(new AccountId(account), visit.viewer()));
    }

    @Allowed(Role.ADMINISTRATOR)
    @PostMapping("/enable")
    ModelAndView enable(
            Visit visit,
            @PathVariable UUID account,
            @ModelAttribute("grant") GrantForm form,
            BindingResult result,
            Model model) {
        return attempt(visit, account, result, model, () -> accounts.enable(new AccountId(account), visit.viewer()));
    }

    @Allowed(Role.ADMINISTRATOR)
    @PostMapping("/end-sessions")
    ModelAndView endSessions(
            Visit visit,
            @PathVariable UUID account,
            @ModelAttribute("grant") GrantForm form,
            BindingResult result,
            Model model) {
        return attempt(
                visit, account, result, model, () -> accounts.endSessions(new AccountId(account), visit.viewer()));
    }

    /** Shows the link on the answer itself and keeps it nowhere; sending the form again makes another one. */
    @Allowed(Role.ADMINISTRATOR)
    @PostMapping("/password-link")
    ModelAndView passwordLink(
            Visit visit,
            @PathVariable UUID account,
            @ModelAttribute("grant") GrantForm form,
            BindingResult result,
            Model model) {
        try {
            Optional<String> secret = passwordLinks.make(new AccountId(account), visit.viewer());
            secret.ifPresentOrElse(
                    made -> model.addAttribute("link", choosePassword(made)), () -> model.addAttribute("asked", true));
            fill(visit, account, model);
            return new ModelAndView(PAGE);
        } catch (Refused refused) {
            refusals.show(refused, result);
            return again(visit, account, model);
        }
    }

    static String choosePassword(String secret) {
        return ServletUriComponentsBuilder.fromCurrentContextPath()
                .pathSegment("choose-password", secret)
                .toUriString();
    }

    private ModelAndView attempt(Visit visit, UUID account, BindingResult result, Model model, Runnable change) {
        try {
            change.run();
            return new ModelAndView("redirect:/sites/" + visit.siteCode() + "/accounts/" + account);
        } catch (Refused refused) {
            refusals.show(refused, result);
            return again(visit, account, model);
        }
    }

    private ModelAndView again(Visit visit, UUID account, Model model) {
        fill(visit, account, model);
        return new ModelAndView(PAGE, HttpStatus.UNPROCESSABLE_CONTENT);
    }

    private void fill(Visit visit, UUID account, Model model) {
        AccountId id = new AccountId(account);
        model.addAttribute("line", accounts.find(visit.viewer().site(), id));
        model.addAttribute("sessions", sessions.count(id));
        model.addAttribute("lines", tokens.of(visit.viewer().site(), id));
        model.addAttribute("zone", visit.zone());
    }
}
