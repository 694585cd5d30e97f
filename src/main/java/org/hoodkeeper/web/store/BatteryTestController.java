package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Duration;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.BatteryTests;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.BatteryBook;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records how long a battery ran from full charge, beside how long it ran before. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/battery-test")
class BatteryTestController {

    private final Desk desk;
    private final Answers answers;
    private final BatteryTests tests;
    private final BatteryBook book;
    private final Show show;

    BatteryTestController(Desk desk, Answers answers, BatteryTests tests, BatteryBook book, Show show) {
        this.desk = desk;
        this.answers = answers;
        this.tests = tests;
        this.book = book;
        this.show = show;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("lines")
    List<BatteryBook.Line> lines(Visit visit, @ModelAttribute("set") ShelfSet set) {
        return book.of(visit.viewer().site(), set, desk.now());
    }

    @ModelAttribute("filters")
    List<Choice> filters() {
        return Choice.each("batteryTest.filter.", BatteryTestForm.Filter.values());
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Visit visit, Model model) {
        model.addAttribute(
                "batteryTest",
                new BatteryTestForm(null, null, null, null, visit.account().name(), null, null));
        return "store/battery-test";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("batteryTest") BatteryTestForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "batteryTest",
                        "store/battery-test",
                        () -> check(visit, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, BatteryTestForm form) {
        return answers.of("batteryTest")
                .text("ran", show.span(Duration.ofMinutes(form.ran())))
                .choice("filter", form.filter())
                .text("serial", form.serial())
                .text("tester", form.tester())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, BatteryTestForm form) {
        BatteryTest test = new BatteryTest(
                form.ran(), form.filter() == BatteryTestForm.Filter.LOADED, form.serial(), form.tester());
        return tests.record(Author.at(visit.viewer()), set.id(), test, form.instant(visit.zone(), desk.now()), null);
    }
}
