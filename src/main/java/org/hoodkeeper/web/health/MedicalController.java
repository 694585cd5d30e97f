package org.hoodkeeper.web.health;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.MedicalOutcomes;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
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

/** Records the outcome of a medical evaluation: ability and limits, never a diagnosis. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/medical-outcome")
class MedicalController {

    private static final String VIEW = "health/medical";

    private final Sheets sheets;
    private final Persons persons;
    private final MedicalOutcomes outcomes;

    MedicalController(Sheets sheets, Persons persons, MedicalOutcomes outcomes) {
        this.sheets = sheets;
        this.persons = persons;
        this.outcomes = outcomes;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @ModelAttribute("results")
    List<Choice> results() {
        return Choice.each("medical.result.", MedicalOutcome.Result.values());
    }

    @ModelAttribute("types")
    List<Choice> types() {
        return Choice.each("kinds.InterfaceType.", InterfaceType.values());
    }

    @ModelAttribute("workRates")
    List<Choice> workRates() {
        return Choice.each("kinds.MedicalOutcomeWorkRate.", MedicalOutcome.WorkRate.values());
    }

    @ModelAttribute("yesNo")
    List<Choice> yesNo() {
        return YesNo.choices();
    }

    @Allowed(Role.HEALTH)
    @GetMapping
    String show(Model model) {

        model.addAttribute("medical", new MedicalForm(null, List.of(), null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.HEALTH)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("medical") MedicalForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("medical", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, MedicalForm form) {

        return outcomes.record(
                Author.at(visit.viewer()), person.id(), form.toFact(), form.instant(visit.zone(), sheets.now()), null);
    }
}
