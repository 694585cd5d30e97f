package org.hoodkeeper.web.trainer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Bookings;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
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

/** Books a seat for a worker: training, fit test or medical evaluation. */
@Controller
@RequestMapping("/sites/{site}/workers/{number}/booking")
class BookingController {

    private static final String VIEW = "trainer/booking";

    private final Sheets sheets;
    private final Persons persons;
    private final Bookings bookings;
    private final Kit kit;

    BookingController(Sheets sheets, Persons persons, Bookings bookings, Kit kit) {
        this.sheets = sheets;
        this.persons = persons;
        this.bookings = bookings;
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

    @ModelAttribute("whats")
    List<Choice> whats() {
        return Choice.each("booking.what.", BookingForm.What.values());
    }

    @Allowed({Role.TRAINER, Role.OFFICER})
    @GetMapping
    String show(Model model) {

        model.addAttribute("booking", new BookingForm(null, null, null, null, null));
        return VIEW;
    }

    @Allowed({Role.TRAINER, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("person") Person person,
            @Valid @ModelAttribute("booking") BookingForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("booking", VIEW, () -> record(visit, person, form)));
    }

    private RecordId record(Visit visit, Person person, BookingForm form) {

        String about = form.model() == null
                ? null
                : kit.model(visit.viewer().site(), form.model()).code();
        return bookings.record(
                Author.at(visit.viewer()),
                person.id(),
                form.toFact(),
                about,
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
