package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
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
 * @param life service life from another method, hours
 * @param safety by which it is divided
 * @param ppm concentration of the organic vapour
 * @param boils its boiling point, °C
 * @param workRate times the normal rate, 0.5 to 4
 * @param humidity relative, 0 to 100 per cent
 */
public record PlanForm(
        LocalTime start,
        @Min(1) @Max(1_440) Integer stint,
        @Min(1) @Max(100) Integer capacity,
        @Min(1) @Max(100) Integer load,
        @Min(0) @Max(1_440) Integer reserve,
        @Nullable BigDecimal life,
        @Nullable BigDecimal safety,
        @Nullable BigDecimal ppm,
        @Nullable BigDecimal boils,
        @DecimalMin("0.5") @DecimalMax("4") BigDecimal workRate,
        @DecimalMin("0") @DecimalMax("100") BigDecimal humidity) {

    private static final LocalTime USUAL_START = LocalTime.of(7, 0);
    private static final int USUAL_STINT = 480;
    private static final int USUAL_RESERVE = 30;
    private static final int WHOLE = 100;
    private static final BigDecimal USUAL_HUMIDITY = new BigDecimal("50");

    /** Whoever asks for no figure gets the usual one, and sees it in the field. */
    @SuppressWarnings("NullAway") // the binder hands over null for what the address leaves out
    public PlanForm {
        start = start == null ? USUAL_START : start;
        stint = stint == null ? USUAL_STINT : stint;
        capacity = capacity == null ? WHOLE : capacity;
        load = load == null ? WHOLE : load;
        reserve = reserve == null ? USUAL_RESERVE : reserve;
        workRate = workRate == null ? BigDecimal.ONE : workRate;
        humidity = humidity == null ? USUAL_HUMIDITY : humidity;
    }
}
