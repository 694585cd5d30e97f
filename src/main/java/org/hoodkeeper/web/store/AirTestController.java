package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.AirJudgement;
import org.hoodkeeper.evidence.AirTests;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.AirSupply;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.RulesAtSite;
import org.hoodkeeper.web.Choice;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records a test of breathing air. */
@Controller
@RequestMapping("/sites/{site}/supplies/{code}/air-test")
class AirTestController {

    private final Desk desk;
    private final Answers answers;
    private final AirTests airTests;
    private final Kit kit;
    private final RulesAtSite rules;

    AirTestController(Desk desk, Answers answers, AirTests airTests, Kit kit, RulesAtSite rules) {
        this.desk = desk;
        this.answers = answers;
        this.airTests = airTests;
        this.kit = kit;
        this.rules = rules;
    }

    @ModelAttribute("supply")
    AirSupply supply(Visit visit, @PathVariable String code) {
        return kit.supply(visit.viewer().site(), code);
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("airTest.outcome.", Outcome.values());
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute(
                "airTest",
                new AirTestForm(null, null, null, null, null, null, null, null, null, null, null, null, null));
        return "store/air-test";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("airTest") AirTestForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "airTest",
                        "store/air-test",
                        () -> check(visit, form),
                        () -> record(visit, code, form),
                        "/sites/" + visit.siteCode() + "/supplies/" + code));
    }

    private List<Line> check(Visit visit, AirTestForm form) {
        AirTest test = form.toFact();
        AirJudgement judgement = AirJudgement.of(test, rules.at(visit.viewer().site(), desk.now()));
        Answers.Lines lines = answers.of("airTest").choice("outcome", form.outcome());
        if (test.outcome() == Outcome.PASS && judgement.failed()) {
            lines.decides("limits", "barred", "airTest.limits.outside", judgement.outside());
        } else if (test.outcome() == Outcome.PASS && !judgement.unknown().isEmpty()) {
            lines.decides("limits", "half", "airTest.limits.unknown", judgement.unknown());
        }
        return lines.text("edition", form.edition())
                .figure("oxygenPercent", form.oxygenPercent(), "%")
                .figure("carbonMonoxidePpm", form.carbonMonoxidePpm(), "ppm")
                .figure("carbonDioxidePpm", form.carbonDioxidePpm(), "ppm")
                .figure("oilMgPerM3", form.oilMgPerM3(), "mg/m³")
                .figure("dewPointCelsius", form.dewPointCelsius(), "°C")
                .figure("lowestCelsius", form.lowestCelsius(), "°C")
                .figure("uncertaintyPercent", form.uncertaintyPercent(), "%")
                .figure("litresPerMinute", form.litresPerMinute(), "L/min")
                .text("tester", form.tester())
                .at(form, visit);
    }

    private RecordId record(Visit visit, String code, AirTestForm form) {
        return airTests.record(
                Author.at(visit.viewer()),
                supply(visit, code).id(),
                form.toFact(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
