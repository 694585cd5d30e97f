package org.hoodkeeper.calculation;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.kernel.Interval;

/**
 * When somebody who wears a device with a flow checks it again: after four hours, then every two (NIOSH 2013-146, restated).
 * Elapsed time counts, whatever the clocks do.
 */
public final class FlowPrompts {

    private static final Duration FIRST = Duration.ofHours(4);

    private static final Duration NEXT = Duration.ofHours(2);

    private FlowPrompts() {}

    /** @param wear from going in to coming out; a check that would fall on its end or later is none */
    public static List<Instant> of(Interval wear) {
        List<Instant> prompts = new ArrayList<>();
        for (Instant at = wear.from().plus(FIRST); at.isBefore(wear.until()); at = at.plus(NEXT)) {
            prompts.add(at);
        }
        return List.copyOf(prompts);
    }
}
