package org.hoodkeeper.store;

import java.time.Duration;
import java.time.Instant;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.StoredAnswers;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Hands sets out and takes them back. Nobody gets a set that the engine does not clear for the plan. */
@Service
@Transactional
public class Counter {

    /** A plan at the counter is a shift with its ends; longer ones are asked about on the board. */
    private static final Duration LONGEST = Duration.ofHours(24);

    private final Custodies custodies;
    private final People people;
    private final Programme programme;
    private final Questions questions;
    private final StoredAnswers answers;
    private final KnowledgeClock clock;

    Counter(
            Custodies custodies,
            People people,
            Programme programme,
            Questions questions,
            StoredAnswers answers,
            KnowledgeClock clock) {
        this.custodies = custodies;
        this.people = people;
        this.programme = programme;
        this.questions = questions;
        this.answers = answers;
        this.clock = clock;
    }

    /**
     * Who is to have a set, for what.
     *
     * @param worker the worker's number
     * @param task the task's code
     * @param wear from the issue on, more than nothing and at most 24 hours
     */
    public record Plan(SetId set, String worker, String task, Duration wear) {}

    /**
     * The answer for the plan, from now on, as this reader may see it; what can only be met at the start is still to do.
     *
     * @throws NotCleared when the engine says no, with every reason and other ready sets
     * @throws Refused {@code custody.issued} when somebody has it, {@code issue.hours.range};
     *     {@link org.hoodkeeper.kernel.NotFound} {@code worker.unknown}, {@code task.unknown}
     */
    @Transactional(readOnly = true)
    public Answer look(Viewer viewer, Plan plan) {
        Instant now = clock.now();
        custodies.requireInStore(viewer.site(), plan.set(), now);
        Answer answer = questions.ask(viewer, question(viewer, plan, now));
        if (answer.verdict() == Verdict.NOT_CLEARED) {
            throw new NotCleared(answer);
        }
        return answer;
    }

    /**
     * Issues the set. The set is locked first, then the worker, so that nothing takes the verdict away meanwhile; the answer
     * acted on is kept, with everything in it.
     *
     * @throws Refused as {@link #look}
     */
    public RecordId issue(Viewer viewer, Plan plan) {
        Worker worker = people.byNumber(viewer.site(), plan.worker());
        custodies.lock(viewer.site(), plan.set());
        people.lock(viewer.site(), worker.id());
        Instant now = clock.now();
        custodies.requireInStore(viewer.site(), plan.set(), now);
        Question question = question(viewer, plan, now);
        Answer whole = questions.whole(question);
        if (whole.verdict() == Verdict.NOT_CLEARED) {
            throw new NotCleared(questions.ask(viewer, question));
        }
        answers.keep(viewer, whole, StoredAnswers.Purpose.ISSUE);
        Custody issued = new Custody(Custody.Claim.ISSUED, null, null);
        return custodies.claim(Author.at(viewer), plan.set(), issued, worker.id(), now);
    }

    /**
     * Takes a set back.
     *
     * @param worn whether it was worn while it was out; unknown counts as worn
     * @throws Refused {@code custody.notIssued} when nobody has it
     */
    public RecordId takeBack(Author author, SetId set, @Nullable Boolean worn, @Nullable String condition, Instant at) {
        return custodies.claim(author, set, new Custody(Custody.Claim.RETURNED, worn, condition), null, at);
    }

    /** Nobody knows where the set is. Whoever had it no longer has. */
    public RecordId missing(Author author, SetId set, @Nullable String note, Instant at) {
        return custodies.claim(author, set, new Custody(Custody.Claim.MISSING, null, note), null, at);
    }

    /** The set turned up. How it was handled meanwhile is unknown: it is disinfected and examined first. */
    public RecordId found(Author author, SetId set, @Nullable String note, Instant at) {
        return custodies.claim(author, set, new Custody(Custody.Claim.FOUND, null, note), null, at);
    }

    private Question question(Viewer viewer, Plan plan, Instant now) {
        if (plan.wear().isZero() || plan.wear().isNegative() || plan.wear().compareTo(LONGEST) > 0) {
            throw new Refused("issue.hours.range", LONGEST.toHours());
        }
        Worker worker = people.byNumber(viewer.site(), plan.worker());
        TaskId task = programme.task(viewer.site(), plan.task()).id();
        Interval wear = new Interval(now, now.plus(plan.wear()));
        return Question.ofSet(viewer.site(), worker.id(), task, plan.set(), wear, now)
                .atTheDoor();
    }
}
