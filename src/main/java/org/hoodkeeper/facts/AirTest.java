package org.hoodkeeper.facts;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A test of a breathing-air supply.
 *
 * @param edition the standard and edition it was judged by: limits differ between editions
 * @param uncertaintyPercent relative expanded uncertainty of the components but the dew point, 0 to below 100; none where the
 *     laboratory states none
 * @param lowestCelsius lowest temperature of the line, for the dew point; none where nobody knows it
 * @param litresPerMinute what the supply was tested to give at its working pressure, L/min; none where that was not tested
 */
public record AirTest(
        Outcome outcome,
        String edition,
        @Nullable BigDecimal oxygenPercent,
        @Nullable BigDecimal carbonMonoxidePpm,
        @Nullable BigDecimal carbonDioxidePpm,
        @Nullable BigDecimal oilMgPerM3,
        @Nullable BigDecimal dewPointCelsius,
        @Nullable String tester,
        @Nullable BigDecimal uncertaintyPercent,
        @Nullable BigDecimal lowestCelsius,
        @Nullable BigDecimal litresPerMinute)
        implements Fact {}
