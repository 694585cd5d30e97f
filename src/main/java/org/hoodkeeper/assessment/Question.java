package org.hoodkeeper.assessment;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;

/**
 * May this worker do this task with this set, or a set of this model and size, from this instant until that one?
 *
 * @param set the set in question; none where a model is asked about
 * @param model the model, where no set is chosen yet
 * @param size its size
 * @param wear from, included, until, excluded; at most 366 days
 * @param knownAt what the site had been told by then decides
 * @param swaps instants at which a charged battery is planned to go in
 * @param start whether the start still lies ahead
 */
public record Question(
        SiteId site,
        WorkerId worker,
        TaskId task,
        @Nullable SetId set,
        @Nullable ModelId model,
        @Nullable String size,
        Interval wear,
        Instant knownAt,
        List<Instant> swaps,
        Start start) {

    private static final Duration LONGEST = Duration.ofDays(366);

    /** What can only be met at the start is still to do while it lies ahead, and counts from then on. */
    public enum Start {
        AHEAD,
        BEGUN
    }

    public Question {
        if ((set == null) == (model == null)) {
            throw new Refused("question.thing");
        }
        if (model != null && size == null) {
            throw new Refused("question.size");
        }
        if (wear.length().compareTo(LONGEST) > 0) {
            throw new Refused("question.until.far", LONGEST.toDays());
        }
        swaps = swaps.stream().sorted().toList();
    }

    public static Question ofSet(SiteId site, WorkerId worker, TaskId task, SetId set, Interval wear, Instant knownAt) {
        return new Question(site, worker, task, set, null, null, wear, knownAt, List.of(), start(wear, knownAt));
    }

    public static Question ofModel(
            SiteId site, WorkerId worker, TaskId task, ModelId model, String size, Interval wear, Instant knownAt) {
        return new Question(site, worker, task, null, model, size, wear, knownAt, List.of(), start(wear, knownAt));
    }

    private static Start start(Interval wear, Instant knownAt) {
        return knownAt.isBefore(wear.from()) ? Start.AHEAD : Start.BEGUN;
    }

    /** With battery swaps planned. */
    public Question swapping(List<Instant> planned) {
        return new Question(site, worker, task, set, model, size, wear, knownAt, planned, start);
    }

    /** The same, asked at the door: what can be done at the start can still be done. */
    public Question atTheDoor() {
        return new Question(site, worker, task, set, model, size, wear, knownAt, swaps, Start.AHEAD);
    }

    /** The same plan with another set. */
    public Question with(SetId other) {
        return new Question(site, worker, task, other, null, null, wear, knownAt, swaps, start);
    }

    /** The same plan at another task. */
    public Question at(TaskId other) {
        return new Question(site, worker, other, set, model, size, wear, knownAt, swaps, start);
    }

    boolean isAhead() {
        return start == Start.AHEAD;
    }
}
