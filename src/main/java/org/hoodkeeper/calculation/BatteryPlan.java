package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.kernel.Refused;

/**
 * How many batteries a stint needs and when to swap. Usable time = measured time × load − reserve; arithmetic, no source. A
 * running time measured with a loaded filter already holds the load, which is then 1.
 *
 * @param usable running time that may be planned with, whole minutes rounded down
 * @param batteries at least 1
 * @param swapBy time into the stint by which each further battery must be in
 * @param checks time into the stint at which flow and battery are looked at: after 4 h, then every 2 h, NIOSH 2013-146 (restated)
 */
public record BatteryPlan(Duration usable, int batteries, List<Duration> swapBy, List<Duration> checks) {

    private static final Duration FIRST_CHECK = Duration.ofHours(4);
    private static final Duration NEXT_CHECK = Duration.ofHours(2);

    /**
     * @param measured running time at the last capacity test, above 0
     * @param load part of it that is left in the conditions of use, above 0 and at most 1
     * @param reserve kept back, not negative and shorter than what is left
     * @param stint time to be worn, above 0 and at most 24 h
     * @throws Refused {@code calculation.battery.*} with the value
     */
    public static BatteryPlan of(Duration measured, BigDecimal load, Duration reserve, Duration stint) {
        require(!measured.isNegative() && !measured.isZero(), "calculation.battery.measured", measured.toMinutes());
        if (load.signum() <= 0 || load.compareTo(BigDecimal.ONE) > 0) {
            throw new Refused("calculation.battery.load", load);
        }
        require(!reserve.isNegative(), "calculation.battery.reserve", reserve.toMinutes());
        require(
                stint.compareTo(Duration.ZERO) > 0 && stint.compareTo(Duration.ofHours(24)) <= 0,
                "calculation.battery.stint",
                stint.toMinutes());
        long minutes = BigDecimal.valueOf(measured.toMinutes())
                .multiply(load)
                .setScale(0, RoundingMode.FLOOR)
                .longValueExact();
        Duration usable = Duration.ofMinutes(minutes).minus(reserve);
        require(usable.compareTo(Duration.ZERO) > 0, "calculation.battery.nothing", minutes, reserve.toMinutes());
        int batteries = (int) ((stint.toMinutes() + usable.toMinutes() - 1) / usable.toMinutes());
        List<Duration> swaps = new ArrayList<>();
        for (int i = 1; i < batteries; i++) {
            swaps.add(usable.multipliedBy(i));
        }
        List<Duration> checks = new ArrayList<>();
        for (Duration at = FIRST_CHECK; at.compareTo(stint) < 0; at = at.plus(NEXT_CHECK)) {
            checks.add(at);
        }
        return new BatteryPlan(usable, batteries, List.copyOf(swaps), List.copyOf(checks));
    }

    private static void require(boolean holds, String code, Object... values) {
        if (!holds) {
            throw new Refused(code, values);
        }
    }
}
