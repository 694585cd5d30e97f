package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import java.math.BigDecimal;
import java.time.LocalTime;
import org.jspecify.annotations.Nullable;

/**
 * What a stint is planned with; the address holds it all, and nothing is recorded.
 *
 * @param start when the stint begins
 * @param stint how long it is to be worn, minutes
 * @param capacity what a battery still had at its last test, per cent of new
 * @param load part of the running time that is left in the conditions of use, per cent
 * @param reserve kept back, minutes
 * @param ppm concentration of the organic vapour
 * @param boils its boiling point, °C
 * @param workRate times the normal rate
 * @param humidity relative, per cent
 * @param life service life from another method, hours
 * @param safety by which it is divided
 */
record PlanForm(
        @Nullable LocalTime start,
        @Nullable @Min(1) @Max(1_440) Integer stint,
        @Nullable @Min(1) @Max(100) Integer capacity,
        @Nullable @Min(1) @Max(100) Integer load,
        @Nullable @Min(0) @Max(1_440) Integer reserve,
        @Nullable BigDecimal ppm,
        @Nullable BigDecimal boils,
        @Nullable BigDecimal workRate,
        @Nullable BigDecimal humidity,
        @Nullable BigDecimal life,
        @Nullable BigDecimal safety) {

    private static final LocalTime USUAL_START = LocalTime.of(7, 0);
    private static final int USUAL_STINT = 480;
    private static final int USUAL_RESERVE = 30;
    private static final int WHOLE = 100;

    PlanForm orUsual() {
        return new PlanForm(
                start == null ? USUAL_START : start,
                stint == null ? USUAL_STINT : stint,
                capacity == null ? WHOLE : capacity,
                load == null ? WHOLE : load,
                reserve == null ? USUAL_RESERVE : reserve,
                ppm,
                boils,
                workRate == null ? BigDecimal.ONE : workRate,
                humidity == null ? new BigDecimal("50") : humidity,
                life,
                safety);
    }

    static PlanForm usual() {
        return new PlanForm(null, null, null, null, null, null, null, null, null, null, null).orUsual();
    }
}
