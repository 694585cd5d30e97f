package org.hoodkeeper.calculation.wash;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Wet contact time of a disinfectant. It counts only while the surface is wet, and begins anew when it dried too early (29 CFR
 * 1910.134, App. B-2: immersed for the time, by analogy). What was reached once stays reached.
 *
 * @param wet of the current stretch, or of the one that reached it
 * @param reachedAt when the needed time was full; none while it is not
 * @param begun whether the clock has been started since it last dried
 */
public record WetContact(Duration wet, @Nullable Instant reachedAt, boolean begun) {

    /** The surface was made wet, or was seen dry. */
    public record Mark(Instant at, State state) {

        public enum State {
            WET,
            DRY
        }
    }

    public boolean isReached() {
        return reachedAt != null;
    }

    /**
     * @param marks in any order; wetting what is wet changes nothing
     * @param needed above zero
     * @param at the instant to read the clock
     */
    public static WetContact at(List<Mark> marks, Duration needed, Instant at) {
        List<Mark> sorted = marks.stream()
                .filter(mark -> !mark.at().isAfter(at))
                .sorted(Comparator.comparing(Mark::at).thenComparing(Mark::state))
                .toList();
        Instant since = null;
        for (Mark mark : sorted) {
            if (since != null && !since.plus(needed).isAfter(mark.at())) {
                break;
            }
            if (mark.state() == Mark.State.DRY) {
                since = null;
            } else if (since == null) {
                since = mark.at();
            }
        }
        if (since == null) {
            return new WetContact(Duration.ZERO, null, false);
        }
        Instant full = since.plus(needed);
        return full.isAfter(at)
                ? new WetContact(Duration.between(since, at), null, true)
                : new WetContact(needed, full, true);
    }
}
