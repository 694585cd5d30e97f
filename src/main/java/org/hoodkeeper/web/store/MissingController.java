package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Counter;
import org.hoodkeeper.store.ShelfSet;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Says that nobody knows where a set is. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/missing")
class MissingController {

    private final Desk desk;
    private final Answers answers;
    private final Counter counter;

    MissingController(Desk desk, Answers answers, Counter counter) {
        this.desk = desk;
        this.answers = answers;
        this.counter = counter;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("missing", new MissingForm(null, null, null));
        return "store/missing";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("missing") MissingForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "missing",
                        "store/missing",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, MissingForm form) {
        return answers.of("missing").text("note", form.note()).at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, MissingForm form) {
        return counter.missing(
                Author.at(visit.viewer()), set.id(), form.note(), form.instant(visit.zone(), desk.now()));
    }
}
