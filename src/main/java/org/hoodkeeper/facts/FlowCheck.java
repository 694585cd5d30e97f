package org.hoodkeeper.facts;

import java.math.BigDecimal;
import org.hoodkeeper.kernel.InstrumentId;
import org.jspecify.annotations.Nullable;

/**
 * A flow check with an indicator. The raw reading stays; the yardstick and the result that it gave on the day stay beside it,
 * so that the screen of that day can be shown again and a later yardstick can judge anew.
 *
 * @param reading what the indicator showed, L/min
 * @param instrument the indicator
 * @param celsius temperature at the reading; none where not measured (then no correction for it)
 * @param hectopascals pressure at the reading; none where not measured
 * @param corrected the corrected flow as computed on the day, L/min
 * @param minimum the model's minimum as used on the day, L/min
 * @param uncertainty the uncertainty as used on the day, L/min
 * @param outcome the result as given on the day
 */
public record FlowCheck(
        BigDecimal reading,
        InstrumentId instrument,
        @Nullable BigDecimal celsius,
        @Nullable BigDecimal hectopascals,
        @Nullable BigDecimal corrected,
        @Nullable BigDecimal minimum,
        @Nullable BigDecimal uncertainty,
        Outcome outcome)
        implements Fact {}
