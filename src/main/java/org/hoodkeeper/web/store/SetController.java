package org.hoodkeeper.web.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.Differences;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.store.DueExamination;
import org.hoodkeeper.store.SetStep;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.MomentForm;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.oversight.DifferenceLines;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** A set's page: may it be handed out, why not, what is next, and its life. Where a scan lands. */
@Controller
class SetController {

    private final Desk desk;
    private final Stands stands;
    private final SetHistory history;
    private final ReasonWords reasons;
    private final Words words;
    private final Differences differences;
    private final DifferenceLines lines;

    SetController(
            Desk desk,
            Stands stands,
            SetHistory history,
            ReasonWords reasons,
            Words words,
            Differences differences,
            DifferenceLines lines) {
        this.desk = desk;
        this.stands = stands;
        this.history = history;
        this.reasons = reasons;
        this.words = words;
        this.differences = differences;
        this.lines = lines;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/sets/{label}")
    String show(
            Visit visit,
            @PathVariable String label,
            @RequestParam(required = false) @Nullable UUID done,
            @ModelAttribute("asked") MomentForm asked,
            BindingResult shape,
            Model page) {
        Instant now = desk.now();
        Moment moment = desk.moment(visit, asked, shape);
        boolean isNow = moment.view() == Moment.View.NOW;
        ShelfSet set = desk.set(visit, label, moment);
        List<History.Version> versions =
                isNow ? history.versions(visit, set.id()) : history.versions(visit, set.id(), moment);
        page.addAttribute("moment", moment);
        page.addAttribute("isNow", isNow);
        page.addAttribute("officer", visit.viewer().is(Role.OFFICER));
        page.addAttribute("store", visit.viewer().is(Role.STOREKEEPER));
        if (moment.isPast(now)) {
            Differences.All all = differences.ofThings(visit.viewer(), moment, now, about(set));
            page.addAttribute("difference", lines.of(visit, all));
            page.addAttribute("standThen", stands.of(visit, desk.set(visit, label, moment.knownAt(moment.at()))));
            page.addAttribute("standNow", stands.of(visit, desk.set(visit, label, moment.knownAt(now))));
        }
        page.addAttribute("stand", stands.of(visit, set));
        page.addAttribute("next", isNow ? mine(visit, set, SetStep.next(set)) : List.of());
        page.addAttribute("more", isNow ? mine(visit, set, more(set)) : List.of());
        page.addAttribute(
                "barring",
                reasons.lines(set.readiness().barring(), set.readiness().clearBy()));
        page.addAttribute(
                "lines",
                reasons.lines(set.readiness().reasons(), set.readiness().clearBy()));
        page.addAttribute("parts", history.parts(versions));
        page.addAttribute("notes", history.notes(visit, set));
        page.addAttribute("refusal", set.isHeld(Hold.Why.NOT_ACCEPTED) ? history.refusal(versions) : null);
        page.addAttribute("life", history.life(visit, versions));
        page.addAttribute("happenings", history.happenings(visit, versions));
        page.addAttribute(
                "certificate",
                DueExamination.of(List.of(set), moment.at(), visit.zone()).stream()
                        .map(DueExamination::examination)
                        .filter(Objects::nonNull)
                        .findFirst()
                        .orElse(null));
        page.addAttribute("done", done == null ? null : done(visit, set, done));
        return "store/set";
    }

    /** The set itself, what its maker says, and the air that it hangs on. */
    private static List<UUID> about(ShelfSet set) {
        List<UUID> about = new ArrayList<>(List.of(set.id().value()));
        SetData data = set.data();
        if (data != null) {
            about.add(data.model().value());
            if (data.supply() != null) {
                about.add(data.supply().value());
            }
        }
        return about;
    }

    private @Nullable String done(Visit visit, ShelfSet set, UUID record) {
        if (record.equals(set.id().value())) {
            return words.say("store.done.newSet");
        }
        Told<?> told = history.told(visit, set.id(), record);
        return told == null ? null : history.words(visit, told);
    }

    private static List<SetStep> more(ShelfSet set) {
        Set<SetStep> more = new LinkedHashSet<>(SetStep.possible(set));
        SetStep.next(set).forEach(more::remove);
        return List.copyOf(more);
    }

    /** What this reader may record. */
    private static List<SetStep> mine(Visit visit, ShelfSet set, List<SetStep> steps) {
        boolean officers = set.isHeld(Hold.Why.IMPOUNDED) && !visit.viewer().is(Role.OFFICER);
        return visit.viewer().is(Role.STOREKEEPER)
                ? steps.stream()
                        .filter(step -> !officers || step != SetStep.RELEASE)
                        .toList()
                : steps.stream()
                        .filter(step -> step == SetStep.HOLD || step == SetStep.RELEASE)
                        .toList();
    }

    @ExceptionHandler
    ModelAndView unknown(NotFound nothing) {
        return ScanController.nothing(String.valueOf(nothing.arguments()[0]));
    }
}
