package org.hoodkeeper.web.worker;

import java.time.Duration;
import java.time.Instant;
import java.util.Objects;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.StoredAnswers;
import org.springframework.stereotype.Component;

/** Lets a worker in whom the engine clears, from now until the end of the plan, and keeps the answer. */
@Component
class Entrance {

    static final Duration LONGEST = Duration.ofHours(24);

    private final Mine mine;
    private final Questions questions;
    private final StoredAnswers answers;
    private final Wears wears;
    private final Kit kit;
    private final Programme programme;
    private final Custodies custodies;
    private final People people;
    private final KnowledgeClock clock;

    Entrance(
            Mine mine,
            Questions questions,
            StoredAnswers answers,
            Wears wears,
            Kit kit,
            Programme programme,
            Custodies custodies,
            People people,
            KnowledgeClock clock) {
        this.mine = mine;
        this.questions = questions;
        this.answers = answers;
        this.wears = wears;
        this.kit = kit;
        this.programme = programme;
        this.custodies = custodies;
        this.people = people;
        this.clock = clock;
    }

    /**
     * The answer as the worker may see it. What can only be done at the start has been done by now, or counts as missing.
     *
     * @throws TurnedBack with every reason when the engine says no
     * @throws Refused {@code enter.until.range} when the plan ends before now or lasts longer than 24 hours
     */
    Answer look(Visit visit, EnterForm plan) {
        Answer answer = questions.ask(visit.viewer(), question(visit, plan));
        if (answer.verdict() == Verdict.NOT_CLEARED) {
            throw new TurnedBack(answer);
        }
        return answer;
    }

    /**
     * Records the way in, inside the caller's transaction. Set and worker are locked first, so that nothing takes the verdict
     * away meanwhile.
     *
     * @throws Refused {@code wear.at.inside}, and as {@link #look}
     */
    RecordId enter(Visit visit, EnterForm plan) {
        Viewer viewer = visit.viewer();
        SiteId site = viewer.site();
        Question first = question(visit, plan);
        custodies.lock(site, Objects.requireNonNull(first.set()));
        people.lock(site, first.worker());
        Question question = question(visit, plan);
        Answer whole = questions.whole(question);
        if (whole.verdict() == Verdict.NOT_CLEARED) {
            throw new TurnedBack(questions.ask(viewer, question));
        }
        answers.keep(viewer, whole, StoredAnswers.Purpose.GATE);
        return wears.entry(
                Author.at(viewer),
                question.worker(),
                Objects.requireNonNull(question.set()),
                question.task(),
                question.wear().from(),
                null);
    }

    /** The worker was about to go in and did not: that answer was acted on too. */
    void keep(Visit visit, TurnedBack turned) {
        answers.keep(visit.viewer(), questions.whole(turned.answer().question()), StoredAnswers.Purpose.GATE);
    }

    private Question question(Visit visit, EnterForm plan) {
        SiteId site = visit.viewer().site();
        Instant now = clock.now();
        Instant until = Objects.requireNonNull(plan.until());
        if (!until.isAfter(now) || until.isAfter(now.plus(LONGEST))) {
            throw new Refused("enter.until.range");
        }
        return Question.ofSet(
                site,
                mine.self(visit).id(),
                programme.task(site, Objects.requireNonNull(plan.task())).id(),
                kit.set(site, Objects.requireNonNull(plan.set())).id(),
                new Interval(now, until),
                now);
    }
}
