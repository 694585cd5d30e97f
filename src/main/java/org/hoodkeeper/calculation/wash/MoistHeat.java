package org.hoodkeeper.calculation.wash;

import java.util.List;
import org.hoodkeeper.kernel.Refused;

/**
 * A₀ of a hot wash: seconds at 80 °C with the same lethal effect, Σ 10^((T − 80) ÷ 10) · Δt (ISO 15883-1). Time below 65 °C does
 * not count. 600 is a common aim for this sort of kit; the site's policy says which.
 */
public final class MoistHeat {

    private static final double COUNTS_FROM = 65;

    private MoistHeat() {}

    /**
     * @param celsius lowest temperature at the load during that time
     * @param seconds 0 or more
     */
    public record Stretch(double celsius, double seconds) {

        public Stretch {
            if (!(seconds >= 0)) {
                throw new Refused("calculation.seconds.negative", seconds);
            }
        }
    }

    public static double a0(List<Stretch> stretches) {
        double sum = 0;
        for (Stretch stretch : stretches) {
            if (stretch.celsius() >= COUNTS_FROM) {
                sum += lethality(stretch.celsius()) * stretch.seconds();
            }
        }
        return sum;
    }

    /** Seconds at 80 °C that a second at this temperature is worth, without the lower limit. */
    public static double lethality(double celsius) {
        return Math.pow(10, (celsius - 80) / 10);
    }
}
