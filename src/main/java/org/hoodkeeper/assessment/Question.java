package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
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
 * @param wear from, included, until, excluded
 * @param knownAt what the site had been told by then decides
 * @param swaps instants at which a charged battery is planned to go in
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
        List<Instant> swaps) {

    public Question {
        if ((set == null) == (model == null)) {
            throw new org.hoodkeeper.kernel.Refused("question.thing");
        }
        if (model != null && size == null) {
            throw new org.hoodkeeper.kernel.Refused("question.size");
        }
        swaps = swaps.stream().sorted().toList();
    }

    /** The start lies ahead of what is known: what can only be met at the start is still to do. */
    public boolean isAhead() {
        return knownAt.isBefore(wear.from());
    }
}
