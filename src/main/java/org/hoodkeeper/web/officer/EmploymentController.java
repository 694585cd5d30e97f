package org.hoodkeeper.web.officer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Employments;
import org.hoodkeeper.facts.Employment;
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

/** Says when a person left the site's employment, or came back: years of keeping count from it. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/employment")
class EmploymentController {

    private static final String VIEW = "officer/employment";

    private final Sheets sheets;
    private final Persons persons;
    private final Employments employments;

    EmploymentController(Sheets sheets, Persons persons, Employments employments) {
        this.sheets = sheets;
        this.persons = persons;
        this.employments = employments;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @ModelAttribute("changes")
    List<Choice> changes() {
        return Choice.each("employment.change.", Employment.Change.values());
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("employment", new EmploymentForm(null, null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("employment") EmploymentForm form,
            BindingResult typed) {
        return sheets.take(
                visit, request, form, typed, new Sheet("employment", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, EmploymentForm form) {
        Author author = Author.at(visit.viewer());
        LocalDate day = Objects.requireNonNull(form.day());
        return form.change() == Employment.Change.ENDED
                ? employments.end(author, person.id(), day, null)
                : employments.resume(author, person.id(), day, null);
    }
}
