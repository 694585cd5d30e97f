package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Examinations;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.store.ShelfSet;
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

/** Records a thorough examination and test. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/examination")
class ExaminationController {

    private final Desk desk;
    private final Answers answers;
    private final Examinations examinations;
    private final Indicators indicators;
    private final Kit kit;

    ExaminationController(Desk desk, Answers answers, Examinations examinations, Indicators indicators, Kit kit) {
        this.desk = desk;
        this.answers = answers;
        this.examinations = examinations;
        this.indicators = indicators;
        this.kit = kit;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("examination.outcome.", Outcome.values());
    }

    @ModelAttribute("instruments")
    List<Choice> instruments(Visit visit, @ModelAttribute("set") ShelfSet set) {
        return indicators.valid(visit.viewer().site(), set.modelData(), desk.now()).stream()
                .map(indicator -> Choice.named(indicator.code(), indicator.code()))
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Visit visit, Model model) {
        model.addAttribute(
                "examination",
                new ExaminationForm(null, null, null, visit.account().name(), null, null, null));
        return "store/examination";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("examination") ExaminationForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "examination",
                        "store/examination",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, ExaminationForm form) {
        return answers.of("examination")
                .choice("outcome", form.outcome())
                .figure("reading", form.reading(), "L/min")
                .text("indicator", form.indicator())
                .text("examiner", form.examiner())
                .text("note", form.note())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, ExaminationForm form) {
        InstrumentId indicator = form.indicator() == null
                ? null
                : kit.instrument(visit.viewer().site(), form.indicator()).id();
        Examination examination = new Examination(
                Objects.requireNonNull(form.outcome()), form.reading(), indicator, form.examiner(), form.note());
        return examinations.record(
                Author.at(visit.viewer()), set.id(), examination, form.instant(visit.zone(), desk.now()), null);
    }
}
