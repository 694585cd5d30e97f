package org.hoodkeeper.web.administrator;

import jakarta.validation.Valid;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.CommandTokens;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
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

/** A person's own tokens for commands. */
@Controller
@RequestMapping("/sites/{site}/tokens")
class TokensController {

    private static final String PAGE = "administrator/tokens";

    private final CommandTokens tokens;
    private final Refusals refusals;

    TokensController(CommandTokens tokens, Refusals refusals) {
        this.tokens = tokens;
        this.refusals = refusals;
    }

    @ModelAttribute("roleChoices")
    List<Choice> roleChoices(Visit visit) {
        return Choice.each(
                "kinds.Role.", visit.viewer().roles().stream().sorted().toArray(Role[]::new));
    }

    @Allowed(self = true)
    @GetMapping
    String list(Visit visit, Model model) {
        model.addAttribute("token", new TokenForm("", List.of()));
        fill(visit, model);
        return PAGE;
    }

    /** Shows the token on the answer itself; only its hash is kept. */
    @Allowed(self = true)
    @PostMapping
    ModelAndView make(Visit visit, @Valid @ModelAttribute("token") TokenForm form, BindingResult result, Model model) {
        HttpStatus status = HttpStatus.UNPROCESSABLE_CONTENT;
        if (!result.hasErrors()) {
            try {
                model.addAttribute("made", tokens.make(form.name(), Set.copyOf(form.roles()), visit.viewer()));
                status = HttpStatus.OK;
            } catch (Refused refused) {
                refusals.show(refused, result);
            }
        }
        fill(visit, model);
        return new ModelAndView(PAGE, status);
    }

    @Allowed(self = true)
    @PostMapping("/{token}/revoke")
    String revoke(Visit visit, @PathVariable UUID token) {
        tokens.revoke(token, visit.viewer());
        return "redirect:/sites/" + visit.siteCode() + "/tokens";
    }

    private void fill(Visit visit, Model model) {
        model.addAttribute("lines", tokens.ownOf(visit.viewer()));
        model.addAttribute("zone", visit.zone());
    }
}
