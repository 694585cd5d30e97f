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
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Seen;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;
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
    private final Seen seen;
    private final Substances substances;

    LimitController(Sheets sheets, Limits limits, MovePreview preview, Seen seen, Substances substances) {
        this.substances = substances;
        this.sheets = sheets;
        this.seen = seen;
        this.limits = limits;
        this.preview = preview;
    }

    @ModelAttribute(Seen.FIELD)
    String seen(Visit visit, HttpServletRequest request) {
        return seen.field(visit, request, Kind.LIMIT, visit.viewer().site());
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
            @ModelAttribute(Seen.FIELD) String state,
            @Valid @ModelAttribute("limit") LimitForm form,
            BindingResult typed) {
        Instant told = sheets.now();
        ModelAndView page = sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "limit",
                        VIEW,
                        () -> record(visit, state, form),
                        List::of,
                        () -> preview.ofLimit(
                                visit.viewer(), substance(visit, form), told, form.instant(visit.zone(), told))));
        return seen.shown(visit, page, Kind.LIMIT, visit.viewer().site(), state, "limit", () -> standing(visit, form));
    }

    private @Nullable LimitForm standing(Visit visit, LimitForm form) {
        if (form.substance() == null) {
            return null;
        }
        String substance = substance(visit, form);
        Limit limit = limits.newest(visit.viewer().site(), substance);
        return limit == null ? null : LimitForm.of(substance, limit);
    }

    private String substance(Visit visit, LimitForm form) {
        return substances.spelled(visit.viewer().site(), Objects.requireNonNull(form.substance()));
    }

    private RecordId record(Visit visit, String state, LimitForm form) {
        String substance = substance(visit, form);
        seen.require(visit, Kind.LIMIT, visit.viewer().site(), substance, state);
        return limits.record(
                Author.at(visit.viewer()), substance, form.toFact(), form.instant(visit.zone(), sheets.now()), null);
    }
}
