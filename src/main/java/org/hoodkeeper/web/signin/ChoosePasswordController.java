package org.hoodkeeper.web.signin;

import jakarta.validation.Valid;
import org.hoodkeeper.access.PasswordLinks;
import org.hoodkeeper.access.Public;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.Refusals;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.InitBinder;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** The page behind a one-time link on which a person chooses a password. */
@Controller
@RequestMapping("/choose-password/{secret}")
class ChoosePasswordController {

    private static final String PAGE = "signin/choose-password";

    private final PasswordLinks links;
    private final Refusals refusals;

    ChoosePasswordController(PasswordLinks links, Refusals refusals) {
        this.links = links;
        this.refusals = refusals;
    }

    @InitBinder
    void passwordsAsTyped(WebDataBinder binder) {
        binder.registerCustomEditor(String.class, "password", new VerbatimText());
        binder.registerCustomEditor(String.class, "again", new VerbatimText());
    }

    @Public
    @GetMapping
    ModelAndView show(@PathVariable String secret, Model model) {
        if (!links.isOpen(secret)) {
            return new ModelAndView("signin/link-spent", HttpStatus.NOT_FOUND);
        }
        model.addAttribute("choosing", new ChoosingForm("", ""));
        return new ModelAndView(PAGE);
    }

    @Public
    @PostMapping
    ModelAndView choose(
            @PathVariable String secret, @Valid @ModelAttribute("choosing") ChoosingForm form, BindingResult result) {
        if (result.hasErrors()) {
            return new ModelAndView(PAGE, HttpStatus.UNPROCESSABLE_CONTENT);
        }
        try {
            links.choose(secret, form.agreed());
            return new ModelAndView("redirect:/sign-in?chosen");
        } catch (NotFound spent) {
            return new ModelAndView("signin/link-spent", HttpStatus.NOT_FOUND);
        } catch (Refused refused) {
            refusals.show(refused, result);
            return new ModelAndView(PAGE, HttpStatus.UNPROCESSABLE_CONTENT);
        }
    }
}
