package org.hoodkeeper.web.supervisor;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
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

/** Lifts what stops a person. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/suspension/end")
class SuspensionEndController {

    private static final String VIEW = "supervisor/suspension-end";

    private final Sheets sheets;
    private final Persons persons;
    private final Holds holds;
    private final Words words;
    private final History history;
    private final Show show;

    SuspensionEndController(Sheets sheets, Persons persons, Holds holds, Words words, History history, Show show) {
        this.sheets = sheets;
        this.persons = persons;
        this.holds = holds;
        this.words = words;
        this.history = history;
        this.show = show;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @ModelAttribute("open")
    List<Choice> open(Visit visit, @ModelAttribute("person") Person person) {
        return holds.open(visit.viewer().site(), person.id()).stream()
                .map(hold -> Choice.named(hold.id().toString(), named(visit, hold)))
                .toList();
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER})
    @GetMapping
    String show(Model model) {

        model.addAttribute("suspensionEnd", new SuspensionEndForm(null, null, null, null));
        return VIEW;
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("suspensionEnd") SuspensionEndForm form,
            BindingResult typed) {
        return sheets.take(
                visit, request, form, typed, new Sheet("suspensionEnd", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, SuspensionEndForm form) {

        return holds.release(
                Author.at(visit.viewer()),
                person.id(),
                Sheets.recordId(Objects.requireNonNull(form.placed())),
                form.reason(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }

    /** With its reason, which whoever may lift it has to know. */
    private String named(Visit visit, Told<Hold> hold) {
        History.Version version = history.find(visit.viewer().site(), hold.id(), sheets.now());
        String reason = version != null && version.told().fact() instanceof Hold whole ? whole.reason() : null;
        return words.say("suspensionEnd.named", show.instant(hold.from(), visit.zone()), reason);
    }
}
