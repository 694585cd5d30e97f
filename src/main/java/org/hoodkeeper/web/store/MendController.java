package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.evidence.Defects;
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

/** Says of an open defect that it is mended. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/mend")
class MendController {

    private final Desk desk;
    private final Answers answers;
    private final Defects defects;
    private final SetHistory history;

    MendController(Desk desk, Answers answers, Defects defects, SetHistory history) {
        this.desk = desk;
        this.answers = answers;
        this.defects = defects;
        this.history = history;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("open")
    List<Choice> open(Visit visit, @ModelAttribute("set") ShelfSet set) {
        return history.open(visit, set, Why.DEFECT_OPEN);
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("mend", new MendForm(null, null, null, null));
        return "store/mend";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("mend") MendForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "mend",
                        "store/mend",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, MendForm form) {
        return answers.of("mend")
                .text("found", history.named(visit, set, Objects.requireNonNull(form.found())))
                .text("note", form.note())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, MendForm form) {
        return defects.mended(
                Author.at(visit.viewer()),
                history.open(set, Objects.requireNonNull(form.found())),
                form.note(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
