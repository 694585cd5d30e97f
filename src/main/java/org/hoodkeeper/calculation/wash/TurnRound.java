package org.hoodkeeper.calculation.wash;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.hoodkeeper.kernel.Refused;

/** How many sets are in the wash at any time, and when one is ready at the earliest. */
public final class TurnRound {

    private TurnRound() {}

    /**
     * Little's law: number inside = arrivals × time inside. Holds for any mixture of arrivals as long as no backlog grows.
     *
     * @param arrivals returns in 24 hours, 0 or more
     * @param lead from return to ready
     */
    public static double inside(double arrivals, Duration lead) {
        if (!(arrivals >= 0) || lead.isNegative()) {
            throw new Refused("calculation.turnRound.range", arrivals, lead);
        }
        return arrivals * lead.toSeconds() / Duration.ofDays(1).toSeconds();
    }

    /** Places to plan: the number inside, rounded up. */
    public static int room(double arrivals, Duration lead) {
        return (int) Math.ceil(inside(arrivals, lead) - 1e-9);
    }

    /** When the last of the steps left to do is done, begun at once and without a pause. */
    public static Instant earliest(Instant begun, List<Duration> stepsLeft) {
        Instant done = begun;
        for (Duration step : stepsLeft) {
            done = done.plus(step);
        }
        return done;
    }
}
