package org.hoodkeeper.facts;

import java.math.BigDecimal;
import org.hoodkeeper.kernel.InstrumentId;
import org.jspecify.annotations.Nullable;

/**
 * A thorough examination and test of a set.
 *
 * @param outcome how it came out
 * @param reading measured flow as indicated, L/min; required where the device has a flow
 * @param indicator the instrument; part of whether the flow counts
 */
public record Examination(
        Outcome outcome,
        @Nullable BigDecimal reading,
        @Nullable InstrumentId indicator,
        @Nullable String examiner,
        @Nullable String note)
        implements Fact {}
