package org.hoodkeeper.web.worker;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.StoredAnswers;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Line;
import org.springframework.stereotype.Component;

/**
 * Somebody is seen to go in. That is a fact whatever the engine says, so it is taken; the engine is asked all the same, its
 * answer is kept with the record, and a no is said plainly.
 */
@Component
class GateEntry {

    /** The question is about the moment of going in: nobody has said for how long. */
    private static final Duration MOMENT = Duration.ofMinutes(1);

    private final Questions questions;
    private final StoredAnswers answers;
    private final Wears wears;
    private final Custodies custodies;
    private final People people;
    private final KnowledgeClock clock;
    private final ReasonWords reasons;
    private final Words words;

    GateEntry(
            Questions questions,
            StoredAnswers answers,
            Wears wears,
            Custodies custodies,
            People people,
            KnowledgeClock clock,
            ReasonWords reasons,
            Words words) {
        this.questions = questions;
        this.answers = answers;
        this.wears = wears;
        this.custodies = custodies;
        this.people = people;
        this.clock = clock;
        this.reasons = reasons;
        this.words = words;
    }

    /** Who goes in, where, with what and when. */
    public record Way(WorkerId worker, TaskId task, SetId set, Instant at) {}

    /** The answer and, when it is no, every reason, as the reader may see them. */
    List<Line> says(Viewer viewer, Way way) {
        Answer answer = questions.ask(viewer, question(viewer, way));
        List<Line> lines = new ArrayList<>();
        lines.add(new Line("wearEntry.answer", words.say("wearEntry.answer." + answer.verdict())));
        if (answer.verdict() == Verdict.NOT_CLEARED) {
            for (Reason reason : answer.reasons()) {
                if (reason.result().bars()) {
                    lines.add(new Line("wearEntry.why", reasons.why(reason)));
                }
            }
        }
        return lines;
    }

    /** Records the way in and keeps the answer beside it, in the caller's transaction; set and worker are locked first. */
    RecordId enter(Viewer viewer, Way way) {
        custodies.lock(viewer.site(), way.set());
        people.lock(viewer.site(), way.worker());
        answers.keep(viewer, questions.whole(question(viewer, way)), StoredAnswers.Purpose.GATE);
        return wears.entry(Author.at(viewer), way.worker(), way.set(), way.task(), way.at(), null);
    }

    private Question question(Viewer viewer, Way way) {
        Interval moment = new Interval(way.at(), way.at().plus(MOMENT));
        return Question.ofSet(viewer.site(), way.worker(), way.task(), way.set(), moment, clock.now());
    }
}
