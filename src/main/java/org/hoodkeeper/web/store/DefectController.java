package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Defects;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.PlaceWords;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records a defect. The set is out of use until it is mended. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/defect")
class DefectController {

    private final Desk desk;
    private final Answers answers;
    private final Defects defects;
    private final PlaceWords places;

    DefectController(Desk desk, Answers answers, Defects defects, PlaceWords places) {
        this.desk = desk;
        this.answers = answers;
        this.defects = defects;
        this.places = places;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("slots")
    List<Choice> slots(@ModelAttribute("set") ShelfSet set) {
        return set.modelData() == null
                ? List.of()
                : places.choices(set.modelData().slots().stream()
                        .map(ModelData.Slot::name)
                        .toList());
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("defect", new DefectForm(null, null, null, null));
        return "store/defect";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("defect") DefectForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "defect",
                        "store/defect",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, DefectForm form) {
        if (form.part() == null && form.note() == null) {
            throw new Refused("defect.note.missing");
        }
        return answers.of("defect")
                .text("part", places.of(form.part()))
                .text("note", form.note())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, DefectForm form) {
        return defects.found(
                Author.at(visit.viewer()),
                set.id(),
                form.part(),
                form.note(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
