package org.hoodkeeper.web.worker;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.LocalTimes;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** The worker's first page: what may I do today, with which set, until when, and what do I do now. */
@Controller
class TodayController {

    private static final Duration SHIFT = Duration.ofHours(8);

    private final SiteBoards boards;
    private final Questions questions;
    private final People people;
    private final Kit kit;
    private final Wears wears;
    private final TodayLines lines;
    private final Words words;
    private final Show show;
    private final Refusals refusals;

    TodayController(
            SiteBoards boards,
            Questions questions,
            People people,
            Kit kit,
            Wears wears,
            TodayLines lines,
            Words words,
            Show show,
            Refusals refusals) {
        this.boards = boards;
        this.questions = questions;
        this.people = people;
        this.kit = kit;
        this.wears = wears;
        this.lines = lines;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
    }

    /** @param until local end of the plan; eight hours from now where left out */
    record Plan(@Nullable LocalDateTime until) {}

    /**
     * One task of the day.
     *
     * @param sentence the answer in one sentence
     * @param set label of the set in hand; none where none is issued
     * @param checkFirst the set is still to be checked before use
     */
    record Job(
            String task,
            @Nullable String set,
            Verdict verdict,
            String sentence,
            @Nullable String dueSoon,
            boolean checkFirst,
            List<String> now,
            List<String> ways,
            Answer answer) {}

    @Allowed(Role.WORKER)
    @GetMapping("/sites/{site}/today")
    String show(Visit visit, @ModelAttribute("plan") Plan plan, BindingResult shape, Model page) {
        Viewer viewer = visit.viewer();
        WorkerId id = viewer.worker();
        if (id == null) {
            throw new NotFound("worker.unknown", "–");
        }
        Worker worker = people.get(viewer.site(), id);
        Instant now = boards.now();
        Instant until = until(visit, plan, shape, now);
        List<Job> jobs = new ArrayList<>();
        for (BoardRow row :
                boards.of(viewer, Moment.of(null, false, now), worker).rows()) {
            if (row.task() != null && row.model() != null) {
                jobs.add(job(visit, id, row, new Interval(now, until)));
            }
        }
        boolean inside = wears.inside(viewer.site(), id, now) != null;
        page.addAttribute("worker", worker);
        page.addAttribute("jobs", jobs);
        page.addAttribute("until", show.instant(until, visit.zone()));
        page.addAttribute("inside", inside);
        page.addAttribute("told", lines.told(viewer, id, now));
        page.addAttribute(
                "reasons", jobs.stream().map(job -> lines.reasons(job.answer())).toList());
        page.addAttribute("minimum", jobs.isEmpty() ? null : minimum(viewer.site(), jobs.get(0), now));
        return "worker/today";
    }

    private Instant until(Visit visit, Plan plan, BindingResult shape, Instant now) {
        LocalDateTime typed = plan.until();
        if (typed == null) {
            return now.plus(SHIFT);
        }
        try {
            Instant until = LocalTimes.meaningOf(typed, visit.zone()).earlier().instant();
            if (until.isAfter(now) && until.isBefore(now.plus(Duration.ofDays(2)))) {
                return until;
            }
            shape.rejectValue("until", "today.until.range", words.say("today.until.range"));
        } catch (Refused refused) {
            refusals.show(refused, shape, "until");
        }
        return now.plus(SHIFT);
    }

    private Job job(Visit visit, WorkerId worker, BoardRow row, Interval wear) {
        Viewer viewer = visit.viewer();
        Question question = question(viewer.site(), worker, row, wear).atTheDoor();
        Answer answer = questions.ask(viewer, question);
        String task = row.task() == null ? "" : row.task().code();
        boolean unchecked = answer.of(RequirementKind.PRE_USE_CHECK).stream()
                .anyMatch(reason -> reason.result() == org.hoodkeeper.assessment.Result.TO_DO_AT_START);
        return new Job(
                task,
                row.set(),
                answer.verdict(),
                sentence(visit, row, task, answer),
                lines.dueSoon(answer),
                row.set() != null && unchecked && answer.verdict() != Verdict.NOT_CLEARED,
                lines.actions(answer),
                lines.ways(viewer.site(), answer),
                answer);
    }

    private Question question(SiteId site, WorkerId worker, BoardRow row, Interval wear) {
        if (row.task() == null || row.model() == null) {
            throw new IllegalArgumentException("a row of the board that was judged has task and model");
        }
        return row.set() != null
                ? Question.ofSet(
                        site, worker, row.task().id(), kit.set(site, row.set()).id(), wear, wear.from())
                : Question.ofModel(
                        site,
                        worker,
                        row.task().id(),
                        kit.model(site, row.model()).id(),
                        row.size() == null ? "" : row.size(),
                        wear,
                        wear.from());
    }

    private String sentence(Visit visit, BoardRow row, String task, Answer answer) {
        String with =
                row.set() == null ? words.say("today.with.model", row.model()) : words.say("today.with.set", row.set());
        if (answer.verdict() == Verdict.NOT_CLEARED) {
            return notForAllOfIt(visit, task, with, answer);
        }
        String text = words.say("today.sentence." + answer.verdict(), task, with);
        Answer.Window window = answer.window();
        return window == null || window.endedBy() == null
                ? text
                : text + " "
                        + words.say(
                                "today.ends",
                                show.until(window.interval().until(), visit.zone()),
                                words.say("endedBy." + window.endedBy()));
    }

    /** A plan whose beginning is cleared: until when, and why no longer. */
    private String notForAllOfIt(Visit visit, String task, String with, Answer answer) {
        Answer.Window prefix = answer.prefix();
        return prefix == null || prefix.endedBy() == null
                ? words.say("today.sentence.NOT_CLEARED", task, with)
                : words.say(
                        "today.sentence.PART",
                        task,
                        with,
                        show.until(prefix.interval().until(), visit.zone()),
                        words.say("endedBy." + prefix.endedBy()));
    }

    private @Nullable String minimum(SiteId site, Job job, Instant now) {
        return job.set() == null ? null : lines.minimumFlow(site, job.set(), now);
    }
}
