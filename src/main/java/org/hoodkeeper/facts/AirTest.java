package org.hoodkeeper.facts;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A test of a breathing-air supply.
 *
 * @param edition the standard and edition it was judged by: limits differ between editions
 */
public record AirTest(
        Outcome outcome,
        String edition,
        @Nullable BigDecimal oxygenPercent,
        @Nullable BigDecimal carbonMonoxidePpm,
        @Nullable BigDecimal carbonDioxidePpm,
        @Nullable BigDecimal oilMgPerM3,
        @Nullable BigDecimal dewPointCelsius,
        @Nullable String tester)
        implements Fact {}
