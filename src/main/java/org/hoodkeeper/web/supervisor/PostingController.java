package org.hoodkeeper.web.supervisor;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Postings;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Person;
import org.hoodkeeper.web.sheet.Persons;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Posts a worker to a task. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/posting")
class PostingController {

    private static final String VIEW = "supervisor/posting";

    private final Sheets sheets;
    private final Persons persons;
    private final Postings postings;
    private final Programme programme;

    PostingController(Sheets sheets, Persons persons, Postings postings, Programme programme) {
        this.sheets = sheets;
        this.persons = persons;
        this.postings = postings;
        this.programme = programme;
    }

    @ModelAttribute("person")
    Person person(Visit visit, @PathVariable String number) {
        return persons.byNumber(visit, number);
    }

    @ModelAttribute("tasks")
    List<Choice> tasks(Visit visit) {
        return programme.tasks(visit.viewer().site()).stream()
                .map(task -> Choice.named(task.code(), task.code()))
                .toList();
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER})
    @GetMapping
    String show(Model model) {

        model.addAttribute("posting", new PostingForm(null, null, null, null));
        return VIEW;
    }

    @Allowed({Role.SUPERVISOR, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("posting") PostingForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("posting", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, PostingForm form) {

        TaskId task = programme
                .task(visit.viewer().site(), Objects.requireNonNull(form.task()))
                .id();
        Instant from = form.instant(visit.zone(), sheets.now());
        return postings.post(Author.at(visit.viewer()), person.id(), task, from, end(visit, form, from), null);
    }

    private static @Nullable Instant end(Visit visit, PostingForm form, Instant from) {
        if (form.lastDay() == null) {
            return null;
        }
        Instant end = Days.endOf(form.lastDay(), visit.zone());
        if (!end.isAfter(from)) {
            throw new Refused("posting.lastDay.order", form.lastDay(), from);
        }
        return end;
    }
}
