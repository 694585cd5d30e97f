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
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.calculation.FlowPrompts;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Task;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.SiteBoards;
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

    private final SiteBoards boards;
    private final Questions questions;
    private final Wears wears;
    private final Kit kit;
    private final ReasonWords reasons;
    private final Words words;
    private final Ends ends;

    DayTasks(
            SiteBoards boards, Questions questions, Wears wears, Kit kit, ReasonWords reasons, Words words, Ends ends) {
        this.boards = boards;
        this.questions = questions;
        this.wears = wears;
        this.kit = kit;
        this.reasons = reasons;
        this.words = words;
        this.ends = ends;
    }

    /** @param plan from now until the end that the worker chose */
    List<DayTask> of(Visit visit, Worker worker, Interval plan) {
        SiteId site = visit.viewer().site();
        Told<Wear> entry = wears.inside(site, worker.id(), plan.from());
        List<DayTask> tasks = new ArrayList<>();
        for (BoardRow row : boards.of(visit.viewer(), Moment.of(null, false, plan.from()), worker)
                .rows()) {
            Task task = row.task();
            if (task != null && (entry == null || !task.id().equals(entry.fact().task()))) {
                tasks.add(outside(visit, worker, task, row, plan));
            }
        }
        tasks.sort(Comparator.comparing(DayTask::verdict).thenComparing(DayTask::task));
        if (entry != null) {
            tasks.add(0, inside(visit, worker, entry, plan));
        }
        return tasks;
    }

    private DayTask outside(Visit visit, Worker worker, Task task, BoardRow row, Interval plan) {
        if (row.set() != null) {
            return withSet(visit, worker, task, row.set(), plan);
        }
        return row.model() == null
                ? no(task.code(), null, words.say("today.noModel", task.code()), null)
                : withoutSet(visit, worker, task, row.model(), row.size() == null ? "" : row.size(), plan);
    }

    private DayTask withSet(Visit visit, Worker worker, Task task, String label, Interval plan) {
        SiteId site = visit.viewer().site();
        SetId set = kit.set(site, label).id();
        Answer answer = questions.ask(
                visit.viewer(),
                Question.ofSet(site, worker.id(), task.id(), set, plan, plan.from())
                        .atTheDoor());
        Verdict verdict = shown(answer);
        if (verdict == Verdict.NOT_CLEARED) {
            return no(
                    task.code(),
                    label,
                    words.say("today.sentence.NOT_CLEARED", task.code(), label) + " " + firstReason(answer),
                    answer);
        }
        Answer.Window window = window(answer);
        boolean shorter = answer.verdict() == Verdict.NOT_CLEARED;
        Instant until = shorter ? window.interval().until() : plan.until();
        String sentence = words.say(
                "today.sentence." + verdict, task.code(), label, ends.until(until, plan.from(), visit.zone()));
        if (endsWith(window, until)) {
            sentence += because(window);
        }
        return new DayTask(
                task.code(),
                label,
                verdict,
                sentence,
                endsWith(window, until) ? null : afterwards(window, visit.zone()),
                flow(answer, new Interval(plan.from(), until), plan.from(), visit.zone()),
                isUnchecked(answer) ? DayTask.Step.CHECK : DayTask.Step.ENTER,
                until,
                answer);
    }

    /** Nobody goes in without a set; the answer says what to ask for at the store. */
    private DayTask withoutSet(Visit visit, Worker worker, Task task, String model, String size, Interval plan) {
        SiteId site = visit.viewer().site();
        Answer answer = questions.ask(
                visit.viewer(),
                Question.ofModel(
                                site,
                                worker.id(),
                                task.id(),
                                kit.model(site, model).id(),
                                size,
                                plan,
                                plan.from())
                        .atTheDoor());
        String next = shown(answer) == Verdict.NOT_CLEARED
                ? words.say("today.noSet.cannot", model, firstReason(answer))
                : words.say("today.noSet.ask", model, size);
        return no(task.code(), null, words.say("today.noSet", task.code()) + " " + next, answer);
    }

    private DayTask inside(Visit visit, Worker worker, Told<Wear> entry, Interval plan) {
        SiteId site = visit.viewer().site();
        TaskId task = entry.fact().task();
        SetId set = Objects.requireNonNull(entry.set(), "who goes in wears something");
        String code = boards.taskCode(site, task);
        String label = kit.set(site, set).label();
        Answer answer = questions.ask(visit.viewer(), Question.ofSet(site, worker.id(), task, set, plan, plan.from()));
        Verdict verdict = shown(answer);
        String said = words.say("today.inside", code, label, ends.clock(entry.from(), plan.from(), visit.zone()));
        if (verdict == Verdict.NOT_CLEARED) {
            return new DayTask(
                    code,
                    label,
                    verdict,
                    words.say("today.inside.out") + " " + firstReason(answer) + " " + said,
                    null,
                    null,
                    DayTask.Step.LEAVE,
                    null,
                    answer);
        }
        Answer.Window window = window(answer);
        boolean shorter = answer.verdict() == Verdict.NOT_CLEARED;
        Instant until = shorter ? window.interval().until() : plan.until();
        String end = words.say("today.inside.until", ends.until(until, plan.from(), visit.zone()));
        return new DayTask(
                code,
                label,
                verdict,
                said + " " + end + (endsWith(window, until) ? because(window) : ""),
                endsWith(window, until) ? null : afterwards(window, visit.zone()),
                flow(answer, new Interval(entry.from(), until), plan.from(), visit.zone()),
                DayTask.Step.LEAVE,
                until,
                answer);
    }

    private static DayTask no(String task, @Nullable String set, String sentence, @Nullable Answer answer) {
        return new DayTask(task, set, Verdict.NOT_CLEARED, sentence, null, null, DayTask.Step.NONE, null, answer);
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
