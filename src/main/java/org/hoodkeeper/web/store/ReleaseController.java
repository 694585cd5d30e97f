package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
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

/** Lifts a hold from a set. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/release")
class ReleaseController {

    private final Desk desk;
    private final Answers answers;
    private final Holds holds;
    private final SetHistory history;

    ReleaseController(Desk desk, Answers answers, Holds holds, SetHistory history) {
        this.desk = desk;
        this.answers = answers;
        this.holds = holds;
        this.history = history;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("open")
    List<Choice> open(Visit visit, @ModelAttribute("set") ShelfSet set) {
        return history.open(visit, set, Why.HELD);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping
    String show(Model model) {
        model.addAttribute("release", new ReleaseForm(null, null, null, null));
        return "store/release";
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("release") ReleaseForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "release",
                        "store/release",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, ReleaseForm form) {
        return answers.of("release")
                .text("placed", history.named(visit, set, Objects.requireNonNull(form.placed())))
                .text("reason", form.reason())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, ReleaseForm form) {
        if (set.isHeld(Hold.Why.IMPOUNDED) && !visit.viewer().is(Role.OFFICER)) {
            throw new Refused("hold.placed.impounded");
        }
        return holds.release(
                Author.at(visit.viewer()),
                set.id(),
                history.open(set, Objects.requireNonNull(form.placed())),
                form.reason(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
