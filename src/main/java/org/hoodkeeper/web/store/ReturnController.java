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
import org.hoodkeeper.web.Choice;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Takes a set back. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/return")
class ReturnController {

    private final Desk desk;
    private final Answers answers;
    private final Counter counter;

    ReturnController(Desk desk, Answers answers, Counter counter) {
        this.desk = desk;
        this.answers = answers;
        this.counter = counter;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("worns")
    List<Choice> worns() {
        return Choice.each("return.worn.", ReturnForm.Worn.values());
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("return", new ReturnForm(null, null, null, null));
        return "store/return";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("return") ReturnForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "return",
                        "store/return",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, ReturnForm form) {
        return answers.of("return")
                .choice("worn", form.worn())
                .text("note", form.note())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, ReturnForm form) {
        return counter.takeBack(
                Author.at(visit.viewer()),
                set.id(),
                form.wornOrUnknown(),
                form.note(),
                form.instant(visit.zone(), desk.now()));
    }
}
