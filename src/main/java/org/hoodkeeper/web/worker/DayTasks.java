package org.hoodkeeper.web.worker;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.calculation.FlowPrompts;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.DayAnswers;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** The tasks of a worker, each with its answer in a sentence: where the worker is first, then the best. */
@Component
class DayTasks {

    /** What the worker does with the check before use. */
    static final Set<RequirementKind> OF_THE_CHECK = EnumSet.of(
            RequirementKind.PRE_USE_CHECK,
            RequirementKind.PLACEMENT_CHECK,
            RequirementKind.SEAL_CHECK,
            RequirementKind.HAIR_AT_SEAL);

    private final DayAnswers days;
    private final Wears wears;
    private final ReasonWords reasons;
    private final Words words;
    private final Ends ends;

    DayTasks(DayAnswers days, Wears wears, ReasonWords reasons, Words words, Ends ends) {
        this.days = days;
        this.wears = wears;
        this.reasons = reasons;
        this.words = words;
        this.ends = ends;
    }

    /** What was judged, and the same in sentences. */
    public record Judged(DayAnswers.Day day, List<DayTask> tasks) {}

    /** @param plan from now until the end that the worker chose */
    Judged of(Visit visit, Worker worker, Interval plan) {
        Told<Wear> entry = wears.inside(visit.viewer().site(), worker.id(), plan.from());
        DayAnswers.Day day = days.of(visit.viewer(), worker, plan, entry == null ? null : inside(entry));
        List<DayTask> tasks = new ArrayList<>();
        for (DayAnswers.Line line : day.lines()) {
            tasks.add(outside(visit, line, plan));
        }
        tasks.sort(Comparator.comparing(DayTask::verdict).thenComparing(DayTask::task));
        if (entry != null && day.inside() != null) {
            tasks.add(0, inside(visit, day.inside(), entry.from(), plan));
        }
        return new Judged(day, tasks);
    }

    private static DayAnswers.Inside inside(Told<Wear> entry) {
        return new DayAnswers.Inside(
                entry.fact().task(), Objects.requireNonNull(entry.set(), "who goes in wears something"));
    }

    private DayTask outside(Visit visit, DayAnswers.Line line, Interval plan) {
        Answer answer = line.answer();
        if (answer == null) {
            return no(line, words.say("today.noModel", line.task()));
        }
        return line.set() == null ? withoutSet(line, answer) : withSet(visit, line, line.set(), answer, plan);
    }

    private DayTask withSet(Visit visit, DayAnswers.Line line, String label, Answer answer, Interval plan) {
        Verdict verdict = shown(answer);
        if (verdict == Verdict.NOT_CLEARED) {
            return no(line, words.say("today.sentence.NOT_CLEARED", line.task(), label) + " " + firstReason(answer));
        }
        Answer.Window window = window(answer);
        boolean shorter = answer.verdict() == Verdict.NOT_CLEARED;
        Instant until = shorter ? window.interval().until() : plan.until();
        String sentence = words.say(
                "today.sentence." + verdict, line.task(), label, ends.until(until, plan.from(), visit.zone()));
        if (endsWith(window, until)) {
            sentence += because(window);
        }
        return new DayTask(
                line.task(),
                label,
                verdict,
                sentence,
                endsWith(window, until) ? null : afterwards(window, visit.zone()),
                flow(answer, new Interval(plan.from(), until), plan.from(), visit.zone()),
                isUnchecked(answer) ? DayTask.Step.CHECK : DayTask.Step.ENTER,
                until,
                line);
    }

    /** Nobody goes in without a set; the answer says what to ask for at the store. */
    private DayTask withoutSet(DayAnswers.Line line, Answer answer) {
        String next = shown(answer) == Verdict.NOT_CLEARED
                ? words.say("today.noSet.cannot", line.model(), firstReason(answer))
                : words.say("today.noSet.ask", line.model(), line.size());
        return no(line, words.say("today.noSet", line.task()) + " " + next);
    }

    private DayTask inside(Visit visit, DayAnswers.Line line, Instant entered, Interval plan) {
        Answer answer = Objects.requireNonNull(line.answer(), "what is worn can be judged");
        Verdict verdict = shown(answer);
        String said =
                words.say("today.inside", line.task(), line.set(), ends.clock(entered, plan.from(), visit.zone()));
        if (verdict == Verdict.NOT_CLEARED) {
            return new DayTask(
                    line.task(),
                    line.set(),
                    verdict,
                    words.say("today.inside.out") + " " + firstReason(answer) + " " + said,
                    null,
                    null,
                    DayTask.Step.LEAVE,
                    null,
                    line);
        }
        Answer.Window window = window(answer);
        boolean shorter = answer.verdict() == Verdict.NOT_CLEARED;
        Instant until = shorter ? window.interval().until() : plan.until();
        String end = words.say("today.inside.until", ends.until(until, plan.from(), visit.zone()));
        return new DayTask(
                line.task(),
                line.set(),
                verdict,
                said + " " + end + (endsWith(window, until) ? because(window) : ""),
                endsWith(window, until) ? null : afterwards(window, visit.zone()),
                flow(answer, new Interval(entered, until), plan.from(), visit.zone()),
                DayTask.Step.LEAVE,
                until,
                line);
    }

    private static DayTask no(DayAnswers.Line line, String sentence) {
        return new DayTask(
                line.task(), line.set(), Verdict.NOT_CLEARED, sentence, null, null, DayTask.Step.NONE, null, line);
    }

    /** A plan of which only the beginning is cleared is cleared until then. */
    static Verdict shown(Answer answer) {
        Answer.Window prefix = answer.prefix();
        if (answer.verdict() != Verdict.NOT_CLEARED || prefix == null) {
            return answer.verdict();
        }
        return prefix.conditions() ? Verdict.CLEARED_WITH_CONDITIONS : Verdict.CLEARED;
    }

    private static Answer.Window window(Answer answer) {
        return Objects.requireNonNull(answer.window(), "what is cleared at its start has a window");
    }

    private static boolean isUnchecked(Answer answer) {
        return answer.reasons().stream()
                .anyMatch(reason -> reason.result() == Result.TO_DO_AT_START && OF_THE_CHECK.contains(reason.kind()));
    }

    private static boolean endsWith(Answer.Window window, Instant until) {
        return !window.interval().until().isAfter(until);
    }

    private String because(Answer.Window window) {
        return window.endedBy() == null
                ? ""
                : " " + words.say("today.because", words.say("endedBy." + window.endedBy()));
    }

    /** What will end it after the plan. */
    private @Nullable String afterwards(Answer.Window window, ZoneId zone) {
        boolean open = window.endedBy() == null || window.interval().until().equals(Instant.MAX);
        return open
                ? null
                : words.say(
                        "today.afterwards",
                        ends.until(window.interval().until(), zone),
                        words.say("endedBy." + window.endedBy()));
    }

    /** The checks of the flow that still lie ahead in a stint. */
    private @Nullable String flow(Answer answer, Interval wear, Instant now, ZoneId zone) {
        boolean flows =
                answer.of(RequirementKind.FLOW).stream().anyMatch(reason -> reason.result() != Result.NOT_APPLICABLE);
        String times = FlowPrompts.of(wear).stream()
                .filter(at -> flows && !at.isBefore(now))
                .map(at -> ends.clock(at, now, zone))
                .collect(Collectors.joining(", "));
        return times.isEmpty() ? null : words.say("today.flow", times);
    }

    private String firstReason(Answer answer) {
        return answer.reasons().stream()
                .filter(reason -> reason.result().bars())
                .findFirst()
                .map(reasons::why)
                .orElse("");
    }
}
