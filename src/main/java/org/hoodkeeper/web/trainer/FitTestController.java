package org.hoodkeeper.web.trainer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.math.BigDecimal;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Accept;
import org.hoodkeeper.evidence.FitTests;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.ShelfModel;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Line;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Person;
import org.hoodkeeper.web.sheet.Persons;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.YesNo;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records a fit test of a worker. With fit factors the rule set in force says how it came out. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/fit-test")
class FitTestController {

    private static final String VIEW = "trainer/fit-test";

    private final Sheets sheets;
    private final Persons persons;
    private final FitTests fitTests;
    private final Bench bench;
    private final Lists lists;
    private final Words words;

    FitTestController(Sheets sheets, Persons persons, FitTests fitTests, Bench bench, Lists lists, Words words) {
        this.sheets = sheets;
        this.persons = persons;
        this.fitTests = fitTests;
        this.bench = bench;
        this.lists = lists;
        this.words = words;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @ModelAttribute("models")
    List<Choice> models(Visit visit) {
        return bench.models(visit.viewer().site(), sheets.now()).stream()
                .filter(model -> model.data().type().isTightFitting())
                .map(model -> Choice.named(
                        model.code(),
                        words.say(
                                "newSet.model.has",
                                model.code(),
                                List.copyOf(model.data().sizes()),
                                model.data().sealRevision())))
                .toList();
    }

    @ModelAttribute("yesNo")
    List<Choice> yesNo() {
        return YesNo.choices();
    }

    @ModelAttribute("methods")
    List<Choice> methods() {
        return Choice.each("fitTest.method.", FitTest.Method.values());
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("fitTest.outcome.", Outcome.values());
    }

    @Allowed(Role.TRAINER)
    @GetMapping
    String show(Model model) {

        model.addAttribute(
                "fitTest", new FitTestForm(null, null, null, null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.TRAINER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("fitTest") FitTestForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("fitTest", VIEW, () -> record(visit, person, form), () -> follows(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, FitTestForm form) {

        return fitTests.record(
                        Author.at(visit.viewer()),
                        person.id(),
                        form.variant(),
                        fact(visit, form),
                        form.instant(visit.zone(), sheets.now()),
                        null)
                .record();
    }

    private List<Line> follows(Visit visit, Person person, FitTestForm form) {
        FitTests.Done judged = fitTests.judge(
                visit.viewer().site(), form.variant(), fact(visit, form), form.instant(visit.zone(), sheets.now()));
        return List.of(
                new Line(
                        "fitTest.result",
                        words.say("fitTest.result." + judged.test().outcome().name())),
                new Line(
                        "fitTest.counts",
                        words.say("fitTest.counts." + judged.counts().name())));
    }

    private FitTest fact(Visit visit, FitTestForm form) {
        ShelfModel model = bench.models(visit.viewer().site(), sheets.now()).stream()
                .filter(one -> one.code().equals(form.model()))
                .findFirst()
                .orElseThrow(() -> new NotFound("model.unknown", form.model()));
        List<BigDecimal> factors = lists.figures(form.exercises(), "fitTest.exercises.unreadable");
        return form.toFact(
                factors,
                Accept.negativeMode(form.saysNegativeMode(), model.data().type()));
    }
}
