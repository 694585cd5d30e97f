package org.hoodkeeper.web.recall;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.RecallBook;
import org.hoodkeeper.store.ShelfModel;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Line;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Records a recall; the sets that it means are held with it. */
@Controller
@RequestMapping("/sites/{site}/new-recall")
class NewRecallController {

    private static final String VIEW = "recall/new-recall";

    private final Sheets sheets;
    private final Recalls recalls;
    private final Kit kit;
    private final Bench bench;
    private final RecallBook book;
    private final Words words;
    private final PlaceWords placeWords;

    NewRecallController(
            Sheets sheets, Recalls recalls, Kit kit, Bench bench, RecallBook book, Words words, PlaceWords placeWords) {
        this.sheets = sheets;
        this.recalls = recalls;
        this.kit = kit;
        this.bench = bench;
        this.book = book;
        this.words = words;
        this.placeWords = placeWords;
    }

    @ModelAttribute("models")
    List<Choice> models(Visit visit) {
        return shelf(visit).stream()
                .map(model -> Choice.named(model.code(), model.code()))
                .toList();
    }

    /** By the names that the site's models give their places, and the usual ones. */
    @ModelAttribute("places")
    List<Choice> places(Visit visit) {
        TreeSet<String> places = new TreeSet<>();
        Stream.of(PartClass.values()).map(PartClass::slot).forEach(places::add);
        shelf(visit).forEach(model -> model.data().slots().forEach(slot -> places.add(slot.name())));
        return placeWords.choices(places);
    }

    @ModelAttribute("remedies")
    List<Choice> remedies() {
        return Choice.each("kinds.RecallRemedy.", Recall.Remedy.values());
    }

    private List<ShelfModel> shelf(Visit visit) {
        return bench.models(visit.viewer().site(), sheets.now());
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping
    String show(@RequestParam(required = false) @Nullable String lot, Model model) {
        NewRecallForm empty = NewRecallForm.EMPTY;
        model.addAttribute(
                "recall",
                lot == null
                        ? empty
                        : new NewRecallForm(
                                null, null, null, null, lot, null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("recall") NewRecallForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("recall", VIEW, () -> record(visit, form), () -> reach(visit, form)),
                record -> "/sites/" + visit.siteCode() + "/recalls/" + record);
    }

    private List<Line> reach(Visit visit, NewRecallForm form) {
        RecallBook.Reach reach = book.reach(visit.viewer().site(), recall(visit, form), sheets.now());
        return List.of(new Line(
                "recall.means", words.say("recall.means.count", reach.sets(), reach.inHands(), reach.unknown())));
    }

    private RecordId record(Visit visit, NewRecallForm form) {
        return recalls.record(
                Author.at(visit.viewer()), recall(visit, form), form.instant(visit.zone(), sheets.now()), null);
    }

    private Recall recall(Visit visit, NewRecallForm form) {
        ModelId model = form.model() == null
                ? null
                : kit.model(visit.viewer().site(), form.model()).id();
        return form.toFact(model);
    }
}
