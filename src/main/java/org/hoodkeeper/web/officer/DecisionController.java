package org.hoodkeeper.web.officer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Decisions;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.rules.SiteDecisionRule;
import org.hoodkeeper.rules.SiteRules;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Decides one thing that the rules leave to the site, or which rule set counts. Owner, reason and time belong to it. */
@Controller
@RequestMapping("/sites/{site}/decisions/{key}")
class DecisionController {

    private static final String VIEW = "officer/decision";

    private final Sheets sheets;
    private final Programme programme;
    private final Decisions decisions;
    private final DecisionPoints points;

    DecisionController(Sheets sheets, Programme programme, Decisions decisions, DecisionPoints points) {
        this.sheets = sheets;
        this.programme = programme;
        this.decisions = decisions;
        this.points = points;
    }

    /**
     * What is decided.
     *
     * @param each for what it is taken
     * @param form what a value looks like; none for the rule set itself
     * @param shown what the rules say of it; none for the rule set itself
     */
    public record Asked(
            String key,
            SiteDecisionRule.Each each,
            SiteDecisionRule.@Nullable Form form,
            List<Choice> choices,
            DecisionPoints.@Nullable Shown shown) {}

    @ModelAttribute("asked")
    Asked asked(Visit visit, @PathVariable String key) {
        Decisions.Points all = decisions.of(visit.viewer().site(), sheets.now());
        if (key.equals(SiteRules.ADOPTED)) {
            return new Asked(key, SiteDecisionRule.Each.SITE, null, choices(all.ruleSets()), null);
        }
        return all.points().stream()
                .filter(point -> point.rule().key().equals(key))
                .findFirst()
                .map(point -> new Asked(
                        key,
                        point.rule().each(),
                        point.rule().form(),
                        choices(point.rule().choices()),
                        points.shown(point)))
                .orElseThrow(() -> new NotFound("decision.key.unknown", key));
    }

    private static List<Choice> choices(List<String> words) {
        return words.stream().map(word -> Choice.named(word, word)).toList();
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("decision", new DecisionForm(null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("asked") Asked asked,
            @Valid @ModelAttribute("decision") DecisionForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("decision", VIEW, () -> record(visit, asked, form)));
    }

    private RecordId record(Visit visit, Asked asked, DecisionForm form) {
        boolean once = asked.each() == SiteDecisionRule.Each.SITE || form.thing() == null;
        String key = once ? asked.key() : asked.key() + "/" + form.thing();
        SiteDecision decision = new SiteDecision(Objects.requireNonNull(form.value()), form.owner(), form.reason());
        return programme.decide(Author.at(visit.viewer()), key, decision, form.instant(visit.zone(), sheets.now()));
    }
}
