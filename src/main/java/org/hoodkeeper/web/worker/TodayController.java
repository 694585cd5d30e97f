package org.hoodkeeper.web.worker;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.LocalTimes;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.DayAnswers;
import org.hoodkeeper.store.RecallBook;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.RequestParam;

/** The worker's first page: what may I do today, with which set, until when, and what do I do now. */
@Controller
class TodayController {

    private static final Duration SHIFT = Duration.ofHours(8);

    private final Mine mine;
    private final DayTasks tasks;
    private final DayAnswers days;
    private final Ends ends;
    private final MyRecords records;
    private final RecallBook recalls;
    private final ReasonWords reasons;
    private final Words words;
    private final Show show;
    private final Refusals refusals;
    /** Everything on the page at one state of the record, and one transaction for it. */
    private final TransactionTemplate once;

    TodayController(
            Mine mine,
            DayTasks tasks,
            DayAnswers days,
            Ends ends,
            MyRecords records,
            RecallBook recalls,
            ReasonWords reasons,
            Words words,
            Show show,
            Refusals refusals,
            PlatformTransactionManager transactions) {
        this.mine = mine;
        this.tasks = tasks;
        this.days = days;
        this.ends = ends;
        this.records = records;
        this.recalls = recalls;
        this.reasons = reasons;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
        this.once = new TransactionTemplate(transactions);
        once.setReadOnly(true);
        once.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    }

    @Allowed(Role.WORKER)
    @GetMapping("/sites/{site}/today")
    String show(
            Visit visit,
            @ModelAttribute("today") TodayForm asked,
            BindingResult shape,
            @RequestParam(required = false) @Nullable String done,
            Model page) {
        once.executeWithoutResult(status -> fill(visit, asked, shape, done, page));
        return "worker/today";
    }

    private void fill(Visit visit, TodayForm asked, BindingResult shape, @Nullable String done, Model page) {
        Instant now = mine.now();
        Worker worker = mine.self(visit);
        Instant until = until(visit, asked, shape, now);
        DayTasks.Judged judged = tasks.of(visit, worker, new Interval(now, until));
        List<DayTask> all = chosenFirst(judged.tasks(), asked.task());
        page.addAttribute("asked", asked);
        page.addAttribute("worker", worker);
        page.addAttribute("until", show.instant(until, visit.zone()));
        page.addAttribute("done", records.done(visit, done, now));
        page.addAttribute("recalled", recalls.inHands(visit.viewer().site(), worker.id(), now));
        page.addAttribute("now", now);
        page.addAttribute("labels", judged.day().inHand());
        page.addAttribute("first", all.isEmpty() ? null : all.get(0));
        page.addAttribute("others", all.isEmpty() ? List.of() : all.subList(1, all.size()));
        if (!all.isEmpty()) {
            answered(visit, judged.day(), all.get(0), now, page);
        }
    }

    private Instant until(Visit visit, TodayForm asked, BindingResult shape, Instant now) {
        LocalDateTime typed = asked.until();
        if (typed == null) {
            return now.plus(SHIFT);
        }
        try {
            // of a time that occurs twice the later one asks for more
            Instant until = LocalTimes.instantOf(typed, visit.zone(), Occurrence.LATER);
            if (until.isAfter(now) && !until.isAfter(now.plus(Entrance.LONGEST))) {
                return until;
            }
            shape.rejectValue("until", "refused.enter.until.range", words.say("refused.enter.until.range"));
        } catch (Refused refused) {
            refusals.show(refused, shape, "until");
        }
        return now.plus(SHIFT);
    }

    private static List<DayTask> chosenFirst(List<DayTask> tasks, @Nullable String task) {
        List<DayTask> sorted = new ArrayList<>(tasks);
        sorted.sort(Comparator.comparing(job -> !job.task().equals(task)));
        return sorted;
    }

    private void answered(Visit visit, DayAnswers.Day day, DayTask job, Instant now, Model page) {
        // whoever is inside with a set that was claimed back meanwhile no longer has it
        BigDecimal minimum = day.minimumFlow(job.set());
        page.addAttribute("minimum", minimum == null ? null : show.figure(minimum, "L/min"));
        if (job.line().answer() == null) {
            return;
        }
        Answer answer = days.withAlternatives(visit.viewer(), day, job.line());
        // half of the requirements are those of other devices: named in one sentence, they hide nothing behind their
        // number
        List<Reason> applying = worstFirst(answer).stream()
                .filter(reason -> reason.result() != Result.NOT_APPLICABLE)
                .toList();
        page.addAttribute("lines", reasons.lines(applying, answer.clearBy()));
        page.addAttribute(
                "notApplying",
                answer.reasons().stream()
                        .filter(reason -> reason.result() == Result.NOT_APPLICABLE)
                        .map(reasons::requirement)
                        .distinct()
                        .collect(Collectors.joining(", ")));
        page.addAttribute(
                "conditions",
                answer.reasons().stream()
                        .filter(reason -> reason.result() == Result.MET_WITH_CONDITIONS)
                        .map(reasons::why)
                        .distinct()
                        .toList());
        page.addAttribute(
                "actions",
                answer.clearBy().stream().map(reasons::clearBy).distinct().toList());
        page.addAttribute("ways", answer.alternatives().stream().map(this::way).toList());
        page.addAttribute("ends", ends.of(answer, now, visit.zone()));
        page.addAttribute(
                "dueSoon",
                answer.dueSoon() == null
                        ? null
                        : words.say(Words.kindKey(answer.dueSoon().kind())) + ", "
                                + show.day(answer.dueSoon().lastDay()));
    }

    static List<Reason> worstFirst(Answer answer) {
        return answer.reasons().stream()
                .sorted(Comparator.comparing(Reason::result).reversed())
                .toList();
    }

    private String way(Answer.Alternative way) {
        return way.taskCode() == null
                ? words.say("today.way.set", way.label())
                : words.say("today.way.task", way.taskCode());
    }
}
