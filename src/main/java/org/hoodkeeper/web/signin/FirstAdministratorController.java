package org.hoodkeeper.web.signin;

import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.FirstAdministrator;
import org.hoodkeeper.access.Public;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.Choice;
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

/** The page behind the link that the console shows on a first start. */
@Controller
@RequestMapping("/first-administrator/{secret}")
class FirstAdministratorController {

    private static final String PAGE = "signin/first-administrator";

    private final FirstAdministrator first;
    private final Refusals refusals;

    FirstAdministratorController(FirstAdministrator first, Refusals refusals) {
        this.first = first;
        this.refusals = refusals;
    }

    @InitBinder
    void passwordsAsTyped(WebDataBinder binder) {
        binder.registerCustomEditor(String.class, "password", new VerbatimText());
        binder.registerCustomEditor(String.class, "again", new VerbatimText());
    }

    @ModelAttribute("ruleSets")
    List<Choice> ruleSets() {
        return Choice.each("beginning.ruleSet.", BeginningForm.RuleSet.values());
    }

    @Public
    @GetMapping
    ModelAndView show(@PathVariable String secret, Model model) {
        if (!first.isOpen(secret)) {
            return new ModelAndView("signin/link-spent", HttpStatus.NOT_FOUND);
        }
        model.addAttribute("beginning", new BeginningForm("", "", "", "", "", "", "", null));
        return new ModelAndView(PAGE);
    }

    @Public
    @PostMapping
    ModelAndView begin(
            @PathVariable String secret, @Valid @ModelAttribute("beginning") BeginningForm form, BindingResult result) {
        if (result.hasErrors()) {
            return new ModelAndView(PAGE, HttpStatus.UNPROCESSABLE_CONTENT);
        }
        try {
            first.begin(secret, form.toBeginning());
            return new ModelAndView("redirect:/sign-in?begun");
        } catch (NotFound spent) {
            return new ModelAndView("signin/link-spent", HttpStatus.NOT_FOUND);
        } catch (Refused refused) {
            refusals.show(refused, result);
            return new ModelAndView(PAGE, HttpStatus.UNPROCESSABLE_CONTENT);
        }
    }
}
