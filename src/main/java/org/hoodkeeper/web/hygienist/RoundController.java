package org.hoodkeeper.web.hygienist;

import jakarta.validation.Valid;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.calculation.RandomDraw;
import org.hoodkeeper.calculation.ZeroDefectSample;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;

/**
 * Whom to look at on the round, and when: drawn at random of those who are posted and may go in, so that what is seen may be said
 * of all of these. The address holds all that the draw rests on, with the moment of knowledge: opened again, it draws the same.
 */
@Controller
class RoundController {

    private static final String VIEW = "hygienist/round";

    private final SiteBoards boards;
    private final TaskSheets sheets;
    private final KnowledgeClock clock;
    private final SheetWords sheetWords;
    private final ReasonWords reasons;
    private final Words words;
    private final Refusals refusals;

    RoundController(
            SiteBoards boards,
            TaskSheets sheets,
            KnowledgeClock clock,
            SheetWords sheetWords,
            ReasonWords reasons,
            Words words,
            Refusals refusals) {
        this.boards = boards;
        this.sheets = sheets;
        this.clock = clock;
        this.sheetWords = sheetWords;
        this.reasons = reasons;
        this.words = words;
        this.refusals = refusals;
    }

    /** One look. */
    public record Look(Worker worker, LocalDate day, LocalTime hour) {}

    /**
     * Posted and not drawn of, since not cleared.
     *
     * @param why on the first day on which it is so
     * @param days on how many of the days
     */
    public record Left(Worker worker, String why, int days) {}

    /** What is drawn of, in an order that can be had again. */
    private record Whole(List<Look> looks, List<Left> left) {}

    @ModelAttribute("weekdays")
    List<Choice> weekdays() {
        return Choice.each("round.weekday.", DayOfWeek.values());
    }

    @Allowed({Role.OFFICER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/tasks/{code}/round")
    String show(
            Visit visit,
            @PathVariable String code,
            @Valid @ModelAttribute("round") @Nullable RoundForm asked,
            BindingResult shape,
            Model page) {
        Instant now = clock.now();
        TaskSheet sheet = sheets.of(visit.viewer().site(), code, Moment.of(null, false, now));
        page.addAttribute("code", sheet.task());
        page.addAttribute("practice", sheetWords.practice(sheet));
        page.addAttribute("records", visit.viewer().isAny(Role.OFFICER, Role.SUPERVISOR, Role.TRAINER));
        page.addAttribute("drawn", false);
        page.addAttribute("sentence", words.say("round.answer.unread"));
        if (asked == null || shape.hasErrors()) {
            return VIEW;
        }
        try {
            draw(visit, sheet.task(), asked.orUsual(Days.of(now, visit.zone()), now), now, page);
        } catch (Refused refused) {
            refusals.show(refused, shape, refused.code().contains("share") ? "share" : "known");
        }
        return VIEW;
    }

    private void draw(Visit visit, String task, RoundForm form, Instant now, Model page) {
        Instant known = form.knownAt(now);
        Whole whole = whole(visit, task, form, known);
        List<Look> looks = whole.looks().isEmpty() ? List.of() : drawn(whole.looks(), form);
        page.addAttribute("round", form);
        page.addAttribute("knownAt", known);
        page.addAttribute("drawn", true);
        page.addAttribute("looks", looks);
        page.addAttribute("of", whole.looks().size());
        page.addAttribute("left", whole.left());
        page.addAttribute(
                "sentence",
                looks.isEmpty()
                        ? words.say("round.answer.none", task)
                        : words.counted(
                                "round.answer",
                                looks.size(),
                                task,
                                whole.looks().size(),
                                form.share()));
    }

    private static List<Look> drawn(List<Look> all, RoundForm form) {
        int size = ZeroDefectSample.size(all.size(), form.share().movePointLeft(2));
        return RandomDraw.of(all, size, form.seedOf()).stream()
                .sorted(Comparator.comparing(Look::day)
                        .thenComparing(Look::hour)
                        .thenComparing(look -> look.worker().number()))
                .toList();
    }

    /**
     * Each person who is posted to the task on that day and may go in, each hour of the shift. Whoever is barred when the first day
     * begins is left out of all; of a later day only what bars the person or the task counts, since a set is washed and examined
     * again in between, and a draw that thins out would say nothing of the later days. An hour that the clock leaves out is
     * no hour of the shift, one that it gives twice is one, and one of today that is over cannot be looked at any more.
     */
    private Whole whole(Visit visit, String task, RoundForm form, Instant known) {
        ZoneId zone = visit.zone();
        List<Look> looks = new ArrayList<>();
        Map<String, Left> left = new TreeMap<>();
        Set<String> barredAtFirst = new HashSet<>();
        boolean isFirst = true;
        for (LocalDate day : form.daysDrawn()) {
            LocalDateTime start = day.atTime(form.firstHour(), 0);
            boolean isToday = day.equals(Days.of(known, zone));
            for (BoardRow row : people(visit, task, start, form, known)) {
                Assessment.Glance glance = row.glance();
                String number = row.worker().number();
                if (isBarred(glance, isFirst) || (!isFirst && barredAtFirst.contains(number))) {
                    if (isFirst) {
                        barredAtFirst.add(number);
                    }
                    left.merge(
                            number,
                            new Left(row.worker(), why(glance), 1),
                            (first, next) -> new Left(first.worker(), first.why(), first.days() + 1));
                    continue;
                }
                for (int hour = 0; hour < form.hours(); hour++) {
                    LocalDateTime at = start.plusHours(hour);
                    if (!zone.getRules().getValidOffsets(at).isEmpty()
                            && !(isToday && at.atZone(zone).toInstant().isBefore(known))) {
                        looks.add(new Look(row.worker(), at.toLocalDate(), at.toLocalTime()));
                    }
                }
            }
            isFirst = false;
        }
        looks.sort(Comparator.comparing((Look look) -> look.worker().number())
                .thenComparing(Look::day)
                .thenComparing(Look::hour));
        return new Whole(looks, List.copyOf(left.values()));
    }

    /**
     * As known at the moment of knowledge, and from the door, since what is only done at the start is still to come: when the shift
     * begins, or at the moment of knowledge where that lies in the shift. Of a shift that was over by then it is asked who might go
     * in when it began.
     */
    private List<BoardRow> people(Visit visit, String task, LocalDateTime start, RoundForm form, Instant known) {
        Instant begins = start.atZone(visit.zone()).toInstant();
        Instant ends = start.plusHours(form.hours()).atZone(visit.zone()).toInstant();
        Moment moment = known.isBefore(begins)
                ? new Moment(begins, known, Moment.View.AS_KNOWN_NOW)
                : known.isBefore(ends)
                        ? new Moment(known, known, Moment.View.AS_KNOWN_THEN)
                        : new Moment(begins, known, Moment.View.AS_KNOWN_THEN);
        return boards.at(visit.viewer(), moment, task).rows();
    }

    private static boolean isBarred(Assessment.@Nullable Glance glance, boolean isFirstDay) {
        if (glance == null) {
            return true;
        }
        Reason first = glance.first();
        return glance.verdict() == Verdict.NOT_CLEARED
                && (isFirstDay
                        || first == null
                        || EnumSet.of(RequirementKind.Side.PERSON, RequirementKind.Side.TASK)
                                .contains(first.kind().side()));
    }

    private String why(Assessment.@Nullable Glance glance) {
        return glance == null || glance.first() == null
                ? words.say("plan.left.unjudged")
                : words.say("plan.left.barred", reasons.requirement(glance.first()), reasons.why(glance.first()));
    }
}
