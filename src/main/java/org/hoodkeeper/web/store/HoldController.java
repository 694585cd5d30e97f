package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
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

/** Puts a hold on a set. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/hold")
class HoldController {

    private final Desk desk;
    private final Answers answers;
    private final Holds holds;

    HoldController(Desk desk, Answers answers, Holds holds) {
        this.desk = desk;
        this.answers = answers;
        this.holds = holds;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    private static final Hold.Why[] OF_SETS = {
        Hold.Why.QUARANTINE,
        Hold.Why.UNDER_REPAIR,
        Hold.Why.IMPOUNDED,
        Hold.Why.TEST_ADAPTED,
        Hold.Why.WITHDRAWN,
        Hold.Why.OTHER
    };

    @ModelAttribute("whys")
    List<Choice> whys() {
        return Choice.each("kinds.HoldWhy.", OF_SETS);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping
    String show(Model model) {
        model.addAttribute("hold", new HoldForm(null, null, null, null));
        return "store/hold";
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("hold") HoldForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "hold",
                        "store/hold",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, HoldForm form) {
        return answers.of("hold")
                .said("why", "hold.why.shown", form.why())
                .text("reason", form.reason())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, HoldForm form) {
        return holds.place(
                Author.at(visit.viewer()),
                set.id(),
                Objects.requireNonNull(form.why()),
                form.reason(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
