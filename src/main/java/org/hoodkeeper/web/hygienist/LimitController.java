package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Limits;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.YesNo;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records an exposure limit as the site applies it, from an instant on. */
@Controller
@RequestMapping("/sites/{site}/limits/new")
class LimitController {

    private static final String VIEW = "hygienist/limit";

    private final Sheets sheets;
    private final Limits limits;
    private final MovePreview preview;

    LimitController(Sheets sheets, Limits limits, MovePreview preview) {
        this.sheets = sheets;
        this.limits = limits;
        this.preview = preview;
    }

    @ModelAttribute("yesNo")
    List<Choice> yesNo() {
        return YesNo.choices();
    }

    @ModelAttribute("filterKinds")
    List<Choice> filterKinds() {
        return Choice.each("kinds.FilterKind.", FilterKind.values());
    }

    @ModelAttribute("marks")
    List<Choice> marks() {
        return Choice.each("kinds.Mark.", Mark.values());
    }

    @Allowed(Role.HYGIENIST)
    @GetMapping
    String show(Model model) {

        model.addAttribute(
                "limit",
                new LimitForm(null, null, null, null, List.of(), null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.HYGIENIST)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("limit") LimitForm form,
            BindingResult typed) {
        Instant told = sheets.now();
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "limit",
                        VIEW,
                        () -> record(visit, form),
                        List::of,
                        () -> preview.ofLimit(
                                visit.viewer(),
                                Objects.requireNonNull(form.substance()),
                                told,
                                form.instant(visit.zone(), told))));
    }

    private RecordId record(Visit visit, LimitForm form) {

        return limits.record(
                Author.at(visit.viewer()),
                Objects.requireNonNull(form.substance()),
                form.toFact(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
