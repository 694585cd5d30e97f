package org.hoodkeeper.web.trainer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Trainings;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.Choice;
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

/** Records a training of a worker. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/training")
class TrainingController {

    private static final String VIEW = "trainer/training";

    private final Sheets sheets;
    private final Persons persons;
    private final Trainings trainings;
    private final Kit kit;

    TrainingController(Sheets sheets, Persons persons, Trainings trainings, Kit kit) {
        this.sheets = sheets;
        this.persons = persons;
        this.trainings = trainings;
        this.kit = kit;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @ModelAttribute("models")
    List<Choice> models(Visit visit) {
        return kit.models(visit.viewer().site()).stream()
                .map(model -> Choice.named(model.code(), model.code()))
                .toList();
    }

    @ModelAttribute("yesNo")
    List<Choice> yesNo() {
        return YesNo.choices();
    }

    @ModelAttribute("outcomes")
    List<Choice> outcomes() {
        return Choice.each("training.outcome.", Outcome.values());
    }

    @Allowed(Role.TRAINER)
    @GetMapping
    String show(Model model) {

        model.addAttribute("training", new TrainingForm(null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.TRAINER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("training") TrainingForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("training", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, TrainingForm form) {

        return trainings.record(
                Author.at(visit.viewer()),
                person.id(),
                kit.model(visit.viewer().site(), Objects.requireNonNull(form.model()))
                        .id(),
                form.toFact(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
