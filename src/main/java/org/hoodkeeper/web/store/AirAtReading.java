package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import org.hoodkeeper.calculation.StandardAtmosphere;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** A form that asks for the air at an indicator: its pressure, or how high the place lies where nobody measured that. */
interface AirAtReading {

    /** Absolute pressure, hPa. */
    @Nullable BigDecimal hectopascals();

    /** Above sea level. */
    @Nullable BigDecimal metres();

    /**
     * The pressure that counts, hPa; none where neither was typed: then the calibration's own does.
     *
     * @throws Refused {@code flowCheck.metres.both}, {@code calculation.metres.range}
     */
    default @Nullable BigDecimal pressure() {
        BigDecimal metres = metres();
        if (metres == null) {
            return hectopascals();
        }
        if (hectopascals() != null) {
            throw new Refused("flowCheck.metres.both");
        }
        return StandardAtmosphere.hectopascals(metres);
    }
}
