package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Symptoms;
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

/** Takes a report of symptoms: from the worker, or from somebody for them. It is not read back. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/symptoms")
class SymptomController {

    private static final String VIEW = "worker/symptom";

    private final Sheets sheets;
    private final Persons persons;
    private final Symptoms symptoms;

    SymptomController(Sheets sheets, Persons persons, Symptoms symptoms) {
        this.sheets = sheets;
        this.persons = persons;
        this.symptoms = symptoms;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.selfOr(visit, number, Role.OFFICER, Role.SUPERVISOR, Role.HEALTH);
    }

    @Allowed(
            value = {Role.OFFICER, Role.SUPERVISOR, Role.HEALTH},
            self = true)
    @GetMapping
    String show(Model model) {

        model.addAttribute("symptom", new SymptomForm(null, null, null));
        return VIEW;
    }

    @Allowed(
            value = {Role.OFFICER, Role.SUPERVISOR, Role.HEALTH},
            self = true)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("symptom") SymptomForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("symptom", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, SymptomForm form) {

        return symptoms.report(
                Author.at(visit.viewer()),
                person.id(),
                Objects.requireNonNull(form.note()),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
