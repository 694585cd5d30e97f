package org.hoodkeeper.web.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.store.PartHistory;
import org.hoodkeeper.store.PartLives;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.MomentForm;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.servlet.ModelAndView;

/** What a set is made of at a moment, place by place, and what sat there before. */
@Controller
class PartsController {

    private final Desk desk;
    private final PartHistory history;
    private final PartLives lives;
    private final Words words;
    private final PlaceWords places;

    PartsController(Desk desk, PartHistory history, PartLives lives, Words words, PlaceWords places) {
        this.desk = desk;
        this.history = history;
        this.lives = lives;
        this.words = words;
        this.places = places;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/sets/{label}/parts")
    String show(
            Visit visit,
            @PathVariable String label,
            @ModelAttribute("asked") MomentForm asked,
            BindingResult shape,
            Model page) {
        Moment moment = desk.moment(visit, asked, shape);
        ShelfSet set = desk.set(visit, label, moment);
        List<Fitting> begun = history.of(visit.viewer().site(), set.id(), moment.knownAt()).fittings().stream()
                .filter(fitting -> !fitting.from().isAfter(moment.at()))
                .sorted(Comparator.comparing(Fitting::place).thenComparing(Fitting::from, Comparator.reverseOrder()))
                .toList();
        List<Fitting> in =
                begun.stream().filter(fitting -> fitting.isInAt(moment.at())).toList();
        List<String> unrecorded = unrecorded(set, in);
        long noLot = in.stream().filter(fitting -> fitting.lot() == null).count() + unrecorded.size();
        page.addAttribute("moment", moment);
        page.addAttribute("isNow", moment.view() == Moment.View.NOW);
        page.addAttribute("set", set);
        page.addAttribute("in", in);
        page.addAttribute(
                "ages",
                lives.ages(visit.viewer().site(), set.id(), in, set.modelData(), moment.at(), moment.knownAt()));
        page.addAttribute("limited", limited(set.modelData()));
        page.addAttribute("unrecorded", unrecorded);
        page.addAttribute("noLot", noLot);
        page.addAttribute(
                "out",
                begun.stream().filter(fitting -> !fitting.isInAt(moment.at())).toList());
        page.addAttribute(
                "picture", begun.isEmpty() ? null : picture(visit, set, begun, unrecorded, moment.at(), noLot));
        return "store/parts";
    }

    private PartPicture picture(
            Visit visit, ShelfSet set, List<Fitting> begun, List<String> unrecorded, Instant at, long noLot) {
        List<Fitting> oldestFirst = new ArrayList<>(begun);
        oldestFirst.sort(Comparator.comparing(Fitting::from));
        return PartPicture.of(
                words.say("parts.picture", set.label(), noLot),
                set.label(),
                unrecorded,
                oldestFirst,
                at,
                visit.zone(),
                words.say("parts.unknown"),
                places::of);
    }

    /** Places whose parts the model limits by age. */
    private static Set<String> limited(@Nullable ModelData model) {
        return model == null
                ? Set.of()
                : model.slots().stream()
                        .filter(slot -> slot.lifeMonths() != null)
                        .map(ModelData.Slot::name)
                        .collect(Collectors.toSet());
    }

    /** Places of which no part was ever recorded: as delivered. */
    private static List<String> unrecorded(ShelfSet set, List<Fitting> in) {
        TreeSet<String> places = new TreeSet<>();
        if (set.modelData() != null) {
            places.addAll(PartClass.places(set.modelData()));
        }
        in.forEach(fitting -> places.remove(fitting.place()));
        return List.copyOf(places);
    }

    @ExceptionHandler
    ModelAndView unknown(NotFound nothing) {
        return ScanController.nothing(String.valueOf(nothing.arguments()[0]));
    }
}
