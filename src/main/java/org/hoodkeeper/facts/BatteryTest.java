package org.hoodkeeper.facts;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * A battery of a set was charged full, as its maker says, and run until the alarm of the device.
 *
 * @param minutes how long it ran
 * @param filterLoaded whether it ran against a filter as loaded as in use; against a clean one it runs longer
 * @param serial the battery's own number; none where the set has but one
 * @param tester who ran it
 */
public record BatteryTest(
        int minutes,
        boolean filterLoaded,
        @Nullable String serial,
        @Nullable String tester) implements Fact {

    public Duration ran() {
        return Duration.ofMinutes(minutes);
    }
}
