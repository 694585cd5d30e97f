package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The outcome of a medical evaluation: ability and limits, never a diagnosis.
 *
 * @param result what the health professional concluded
 * @param interfaces the types the person may wear; empty means no limit of that kind
 * @param maxWearMinutes longest wear in one shift, minutes
 * @param maxWbgt highest heat, wet-bulb globe temperature in degrees Celsius, that number included
 * @param maxWorkRate hardest work allowed
 * @param neverAlone the person must not wear it alone
 * @param reviewOn the last day on which the outcome is good; none where the professional set none
 */
public record MedicalOutcome(
        Result result,
        Set<InterfaceType> interfaces,
        @Nullable Integer maxWearMinutes,
        @Nullable BigDecimal maxWbgt,
        @Nullable WorkRate maxWorkRate,
        boolean neverAlone,
        @Nullable LocalDate reviewOn,
        @Nullable String organisation)
        implements Fact {

    public enum Result {
        FIT,
        FIT_WITH_LIMITS,
        TEMPORARILY_UNFIT,
        UNFIT
    }

    public enum WorkRate {
        LIGHT,
        MODERATE,
        HEAVY
    }

    public MedicalOutcome {
        interfaces = Ordered.copy(interfaces);
    }

    public boolean allows(InterfaceType type) {
        return interfaces.isEmpty() || interfaces.contains(type);
    }

    public boolean isFit() {
        return result == Result.FIT || result == Result.FIT_WITH_LIMITS;
    }
}
