package org.hoodkeeper.web.supervisor;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Observations;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Person;
import org.hoodkeeper.web.sheet.Persons;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records what was seen on a worker, at the seal or on the round. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/observation")
class ObservationController {

    private static final String VIEW = "supervisor/observation";

    private final Sheets sheets;
    private final Persons persons;
    private final Observations observations;

    ObservationController(Sheets sheets, Persons persons, Observations observations) {
        this.sheets = sheets;
        this.persons = persons;
        this.observations = observations;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @ModelAttribute("seens")
    List<Choice> seens() {
        return Choice.each("observation.seen.", Observation.Seen.values());
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER, Role.TRAINER})
    @GetMapping
    String show(Model model) {

        model.addAttribute("observation", new ObservationForm(null, null, null, null));
        return VIEW;
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER, Role.TRAINER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("observation") ObservationForm form,
            BindingResult typed) {
        return sheets.take(
                visit, request, form, typed, new Sheet("observation", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, ObservationForm form) {

        return observations.record(
                Author.at(visit.viewer()), person.id(), form.toFact(), form.instant(visit.zone(), sheets.now()), null);
    }
}
