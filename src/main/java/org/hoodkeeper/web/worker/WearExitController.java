package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Wears;
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

/** Records that a worker comes out again: by the worker, or at the gate. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/wear/exit")
class WearExitController {

    private static final String VIEW = "worker/wear-exit";

    private final Sheets sheets;
    private final Persons persons;
    private final Wears wears;

    WearExitController(Sheets sheets, Persons persons, Wears wears) {
        this.sheets = sheets;
        this.persons = persons;
        this.wears = wears;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.selfOr(visit, number, Role.SUPERVISOR);
    }

    @Allowed(value = Role.SUPERVISOR, self = true)
    @GetMapping
    String show(Model model) {

        model.addAttribute("wearExit", new WearExitForm(null, null));
        return VIEW;
    }

    @Allowed(value = Role.SUPERVISOR, self = true)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("wearExit") WearExitForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("wearExit", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, WearExitForm form) {

        return wears.exit(Author.at(visit.viewer()), person.id(), form.instant(visit.zone(), sheets.now()), null);
    }
}
