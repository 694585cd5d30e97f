package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Records a part that was fitted. A part that is not approved is recorded too: the set is then barred by it. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/part")
class PartController {

    private final Desk desk;
    private final Answers answers;
    private final PartChanges partChanges;
    private final StockAnswer stock;
    private final Words words;
    private final PlaceWords places;

    PartController(
            Desk desk, Answers answers, PartChanges partChanges, StockAnswer stock, Words words, PlaceWords places) {
        this.desk = desk;
        this.answers = answers;
        this.partChanges = partChanges;
        this.stock = stock;
        this.words = words;
        this.places = places;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("slots")
    List<Choice> slots(@ModelAttribute("set") ShelfSet set) {
        return slots(set.modelData()).stream()
                .map(slot -> Choice.named(
                        slot.name(),
                        words.say("part.slot.approved", places.of(slot.name()), List.copyOf(slot.parts()))))
                .toList();
    }

    @ModelAttribute("fitters")
    List<Choice> fitters() {
        return Choice.each("part.fitted.", PartForm.Fitted.values());
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(@RequestParam(required = false) @Nullable String slot, Model model) {
        model.addAttribute("part", new PartForm(slot, null, null, null, null, null, null, null, null));
        return "store/part";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("part") PartForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "part",
                        "store/part",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, PartForm form) {
        boolean approved = approved(set, form.slot(), form.part());
        Answers.Lines lines = answers.of("part")
                .text("slot", places.of(form.slot()))
                .text("part", form.part())
                .decides("approved", approved ? "clear" : "barred", approved ? "part.approved.YES" : "part.approved.NO")
                .text("lot", form.lot());
        stock.say(lines, visit.viewer().site(), form.part(), form.lot(), form.instant(visit.zone(), desk.now()));
        return lines.text("serial", form.serial())
                .day("madeOn", form.madeOn())
                .choice("fitted", form.fitted())
                .text("fitter", form.fitter())
                .at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, PartForm form) {
        PartChange change = new PartChange(
                Objects.requireNonNull(form.part()),
                form.lot(),
                form.serial(),
                form.madeOn(),
                form.fitted() == PartForm.Fitted.TRAINED,
                form.fitter());
        return partChanges.record(
                Author.at(visit.viewer()),
                set.id(),
                Objects.requireNonNull(form.slot()),
                change,
                form.instant(visit.zone(), desk.now()),
                null);
    }

    private static List<ModelData.Slot> slots(@Nullable ModelData model) {
        return model == null ? List.of() : model.slots();
    }

    /** Whether the maker allows the part in that place of this set. */
    static boolean approved(ShelfSet set, @Nullable String place, @Nullable String part) {
        return slots(set.modelData()).stream()
                .anyMatch(slot -> slot.name().equals(place) && slot.parts().contains(part));
    }
}
