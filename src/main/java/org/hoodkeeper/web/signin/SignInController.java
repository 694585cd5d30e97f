package org.hoodkeeper.web.signin;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.Optional;
import org.hoodkeeper.access.Public;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.ResponseStatus;

/** The sign-in page. Checking the password is the security edge's work. */
@Controller
class SignInController {

    private static final String PAGE = "signin/sign-in";

    /** Why a person finds themself here, as the address says. */
    private static final List<String> NEWS = List.of("signedOut", "expired", "chosen", "begun");

    @Public
    @GetMapping("/sign-in")
    String show(@ModelAttribute("signIn") SignInForm form, HttpServletRequest request, Model model) {
        if (request.getUserPrincipal() != null) {
            return "redirect:/";
        }
        news(request).ifPresent(news -> model.addAttribute("news", "signIn.news." + news));
        return PAGE;
    }

    /** Where the edge sends a try that it did not accept. One sentence for every reason. */
    @Public
    @PostMapping("/sign-in/refused")
    @ResponseStatus(HttpStatus.UNAUTHORIZED)
    String refused(@ModelAttribute("signIn") SignInForm form, BindingResult result) {
        result.reject("signIn.refused");
        return PAGE;
    }

    private static Optional<String> news(HttpServletRequest request) {
        return NEWS.stream()
                .filter(news -> request.getParameterMap().containsKey(news))
                .findFirst();
    }
}
