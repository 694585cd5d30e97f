package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
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

/** Disposes of a withdrawn set. What is evidence the safety officer lets go first. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/disposal")
class DisposalController {

    private final Desk desk;
    private final Answers answers;
    private final Holds holds;

    DisposalController(Desk desk, Answers answers, Holds holds) {
        this.desk = desk;
        this.answers = answers;
        this.holds = holds;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("disposal", new DisposalForm(null, null, null));
        return "store/disposal";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("disposal") DisposalForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "disposal",
                        "store/disposal",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, DisposalForm form) {
        return answers.of("disposal").text("how", form.how()).at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, DisposalForm form) {
        return holds.dispose(Author.at(visit.viewer()), set.id(), form.how(), form.instant(visit.zone(), desk.now()));
    }
}
