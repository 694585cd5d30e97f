package org.hoodkeeper.web.supervisor;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
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

/** Stops a person: they wear nothing until it is lifted. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/suspension")
class SuspensionController {

    private static final String VIEW = "supervisor/suspension";

    private final Sheets sheets;
    private final Persons persons;
    private final Holds holds;

    SuspensionController(Sheets sheets, Persons persons, Holds holds) {
        this.sheets = sheets;
        this.persons = persons;
        this.holds = holds;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER})
    @GetMapping
    String show(Model model) {

        model.addAttribute("suspension", new SuspensionForm(null, null, null));
        return VIEW;
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("suspension") SuspensionForm form,
            BindingResult typed) {
        return sheets.take(
                visit, request, form, typed, new Sheet("suspension", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, SuspensionForm form) {

        return holds.place(
                Author.at(visit.viewer()),
                person.id(),
                Hold.Why.SUSPENDED,
                form.reason(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
