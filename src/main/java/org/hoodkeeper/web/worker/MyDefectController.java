package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Defects;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.PlaceWords;
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

/** The worker reports a defect of the set in hand. It is out of use from then on. */
@Controller
@RequestMapping("/sites/{site}/today/defect/{label}")
class MyDefectController {

    private static final String VIEW = "worker/my-defect";

    private final Sheets sheets;
    private final Mine mine;
    private final Defects defects;
    private final PlaceWords places;

    MyDefectController(Sheets sheets, Mine mine, Defects defects, PlaceWords places) {
        this.sheets = sheets;
        this.mine = mine;
        this.defects = defects;
        this.places = places;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return mine.inHand(visit, label);
    }

    @ModelAttribute("slots")
    List<Choice> slots(@ModelAttribute("set") ShelfSet set) {
        return set.modelData() == null
                ? List.of()
                : places.choices(set.modelData().slots().stream()
                        .map(ModelData.Slot::name)
                        .toList());
    }

    @Allowed(Role.WORKER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("myDefect", new MyDefectForm(null, null));
        return VIEW;
    }

    @Allowed(Role.WORKER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("myDefect") MyDefectForm form,
            BindingResult typed) {
        ModelAndView page = sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("myDefect", VIEW, () -> record(visit, set, form)),
                told -> "/sites/" + visit.siteCode() + "/today/stop/" + told);
        page.addObject("code", set.label());
        return page;
    }

    private RecordId record(Visit visit, ShelfSet set, MyDefectForm form) {
        return defects.found(Author.at(visit.viewer()), set.id(), form.part(), form.note(), mine.now(), null);
    }
}
