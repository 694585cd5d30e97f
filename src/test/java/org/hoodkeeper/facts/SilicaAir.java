package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Assessments of ordinary air with silica, moderate work and no statistic of their own, as most stories need them. */
public final class SilicaAir {

    private SilicaAir() {}

    /** @param milligrams in a cubic metre, outside of the device */
    public static TaskBasis of(String milligrams) {
        return assessment(milligrams, null, null);
    }

    /** The same for shifts of twelve hours, of which Brief and Scala leave half of the limit. */
    public static TaskBasis ofTwelveHours(String milligrams) {
        return assessment(milligrams, new BigDecimal("12"), TaskBasis.LongShift.BRIEF_SCALA);
    }

    private static TaskBasis assessment(
            String milligrams, @Nullable BigDecimal shiftHours, TaskBasis.@Nullable LongShift longShift) {
        return new TaskBasis(
                List.of(new TaskBasis.Exposure("silica", new BigDecimal(milligrams), "mg/m3")),
                TaskBasis.Mixture.ADDITIVE,
                TaskBasis.Atmosphere.ORDINARY,
                Set.of(),
                MedicalOutcome.WorkRate.MODERATE,
                null,
                null,
                null,
                null,
                shiftHours,
                longShift,
                null,
                null);
    }
}
