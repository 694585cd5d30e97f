package org.hoodkeeper.calculation.wash;

import java.math.BigDecimal;
import org.hoodkeeper.kernel.Refused;

/**
 * What a disinfectant needs in order to work, from its own label.
 *
 * @param code as the site names it
 * @param strength least strength, in {@code basis}, above 0
 * @param basis what the strength is counted in, for instance {@code ppm available chlorine}
 * @param wetSeconds least time the surface stays wet, seconds, 1 to 86,400
 */
public record Disinfectant(String code, BigDecimal strength, String basis, int wetSeconds) {

    public Disinfectant {
        if (strength.signum() <= 0) {
            throw new Refused("calculation.strength.notPositive", strength);
        }
        if (wetSeconds < 1 || wetSeconds > 86_400) {
            throw new Refused("calculation.wetSeconds.range", wetSeconds, 1, 86_400);
        }
    }
}
