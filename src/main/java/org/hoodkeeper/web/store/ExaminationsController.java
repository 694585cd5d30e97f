package org.hoodkeeper.web.store;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.DueExamination;
import org.hoodkeeper.web.ReasonLine;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** What is to be examined: overdue, this week, this month; with where each set is. The address is the whole question. */
@Controller
class ExaminationsController {

    private final Bench bench;
    private final Stands stands;
    private final Desk desk;
    private final ReasonWords reasons;
    private final Words words;

    ExaminationsController(Bench bench, Stands stands, Desk desk, ReasonWords reasons, Words words) {
        this.bench = bench;
        this.stands = stands;
        this.desk = desk;
        this.reasons = reasons;
        this.words = words;
    }

    /** How many are due then. */
    public record Count(DueExamination.When when, long sets, boolean here) {}

    /**
     * @param line the engine's word in words, with the rule it rests on
     * @param where who has it, or where it lies
     * @param certificate the last examination's record; none where there is none
     */
    public record Row(
            DueExamination due,
            ReasonLine line,
            String where,
            @Nullable RecordId certificate) {}

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/examinations")
    String show(Visit visit, @RequestParam(required = false) @Nullable String due, Model page) {
        Instant now = desk.now();
        List<DueExamination> all = DueExamination.of(bench.of(visit.viewer().site(), now), now, visit.zone());
        DueExamination.When asked = Stream.of(DueExamination.When.values())
                .filter(when -> when.name().equals(due))
                .findFirst()
                .orElse(null);
        page.addAttribute("sentence", sentence(all));
        page.addAttribute("now", now);
        page.addAttribute("listed", all.size());
        page.addAttribute("asked", asked);
        page.addAttribute("storekeeper", visit.viewer().is(Role.STOREKEEPER));
        page.addAttribute(
                "counts",
                Stream.of(DueExamination.When.values())
                        .map(when -> new Count(when, count(all, when), when == asked))
                        .filter(count -> count.sets() > 0)
                        .toList());
        List<DueExamination> shown = all.stream()
                .filter(one -> asked == null ? isSoon(one.when()) : one.when() == asked)
                .toList();
        Map<SetId, String> places =
                stands.places(visit, shown.stream().map(DueExamination::set).toList());
        page.addAttribute("rows", shown.stream().map(one -> row(one, places)).toList());
        return "store/examinations";
    }

    private static boolean isSoon(DueExamination.When when) {
        return when.compareTo(DueExamination.When.MONTH) <= 0;
    }

    private static long count(List<DueExamination> all, DueExamination.When when) {
        return all.stream().filter(one -> one.when() == when).count();
    }

    private String sentence(List<DueExamination> all) {
        if (all.isEmpty()) {
            return words.say("examinations.answer.none");
        }
        return words.say(
                "examinations.answer",
                count(all, DueExamination.When.OVERDUE),
                count(all, DueExamination.When.BEFORE_USE),
                count(all, DueExamination.When.WEEK),
                count(all, DueExamination.When.MONTH));
    }

    private Row row(DueExamination due, Map<SetId, String> places) {
        return new Row(
                due,
                reasons.lines(List.of(due.reason()), List.of()).get(0),
                places.getOrDefault(due.set().id(), ""),
                due.examination());
    }
}
