package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.List;
import org.hoodkeeper.calculation.Adequacy.Reason;
import org.hoodkeeper.calculation.Adequacy.Shortfall;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AdequacyTest {

    /** 29 CFR 1910.1000(d)(2)(ii), worked example: 500 of 1,000, 45 of 200 and 40 of 200 ppm give 0.500 + 0.225 + 0.200. */
    @Test
    void mixtureOfThreeSolventsIsWithinLimits() {
        List<Exposure> air = List.of(exposure("500", "1000"), exposure("45", "200"), exposure("40", "200"));
        assertThat(HazardRatio.of(air, MixtureEffect.ADDITIVE).value()).isEqualByComparingTo("0.925");
        assertThat(HazardRatio.of(air, MixtureEffect.ADDITIVE).isCoveredBy(BigDecimal.ONE))
                .isTrue();
    }

    /** The same air, effects taken as independent: the greatest share. Common practice, no source. */
    @Test
    void independentEffectsTakeTheGreatestShare() {
        List<Exposure> air = List.of(exposure("45", "200"), exposure("500", "1000"), exposure("40", "200"));
        assertThat(HazardRatio.of(air, MixtureEffect.INDEPENDENT).value()).isEqualByComparingTo("0.5");
    }

    /** Shares that no decimal can write: 1/3 + 2/3 of the limits is exactly the limit. */
    @Test
    void thirdsAddUpToOne() {
        List<Exposure> air = List.of(exposure("1", "3"), exposure("2", "3"));
        assertThat(HazardRatio.of(air, MixtureEffect.ADDITIVE).value()).isEqualByComparingTo("1");
    }

    /** "Meets or exceeds", 29 CFR 1910.134(d)(3)(i)(A). */
    @Test
    void factorEqualToTheRatioIsEnough() {
        assertThat(judge("2.0", "0.1", "20").isAdequate()).isTrue();
        assertThat(judge("2.0000000001", "0.1", "20").shortfalls())
                .containsExactly(new Shortfall(Reason.FACTOR_BELOW_RATIO, null));
    }

    /** Silica at 1.42 mg/m³ (upper tolerance limit of six results) against 0.1: ratio 14.2. Computed by hand. */
    @ParameterizedTest
    @CsvSource({"10, false, 0.70", "20, true, 1.40", "25, true, 1.76", "40, true, 2.81"})
    void factorAgainstRatioOfFourteenPointTwo(String factor, boolean adequate, String margin) {
        Adequacy adequacy = judge("1.42", "0.1", factor);
        assertThat(adequacy.ratio().value()).isEqualByComparingTo("14.2");
        assertThat(adequacy.isAdequate()).isEqualTo(adequate);
        assertThat(adequacy.margin()).isEqualByComparingTo(margin);
    }

    /** 29 CFR 1910.134(b), maximum use concentration = factor × limit; silica and lead limits 50 µg/m³, 1910.1053 and 1910.1025. */
    @ParameterizedTest
    @CsvSource({"10, 50, 500", "25, 50, 1250", "1000, 50, 50000", "50, 50, 2500"})
    void maximumUseIsFactorTimesLimit(String factor, String limit, String expected) {
        MaximumUse use = MaximumUse.of(decimal(factor), decimal(limit), null, null);
        assertThat(use.concentration()).isEqualByComparingTo(expected);
        assertThat(use.setBy()).isEqualTo(MaximumUse.SetBy.FACTOR);
    }

    /** 29 CFR 1910.134(d)(3)(i)(B)(3): cut to the lower of dangerous concentration and cartridge limit. */
    @ParameterizedTest
    @CsvSource({
        "1000, 50, 25000, , 25000, IDLH",
        "1000, 50, 25000, 10000, 10000, FILTER",
        "1000, 50, 60000, 70000, 50000, FACTOR",
        "1000, 50, 50000, , 50000, FACTOR",
        "1000, 50, 25000, 30000, 25000, IDLH"
    })
    void maximumUseIsCutToTheLowestCap(
            String factor,
            String limit,
            String idlh,
            @Nullable String filter,
            String expected,
            MaximumUse.SetBy setBy) {
        MaximumUse use =
                MaximumUse.of(decimal(factor), decimal(limit), decimal(idlh), filter == null ? null : decimal(filter));
        assertThat(use.concentration()).isEqualByComparingTo(expected);
        assertThat(use.setBy()).isEqualTo(setBy);
    }

    /** 29 CFR 1910.134(d)(3)(i)(B)(2): no factor counts in an immediately dangerous air; every reason is told. */
    @Test
    void noFactorIsEnoughAtTheDangerousConcentration() {
        Exposure atIdlh = new Exposure("silica", decimal("25"), decimal("0.05"), decimal("25"), decimal("20"));
        assertThat(Adequacy.of(List.of(atIdlh), MixtureEffect.ADDITIVE, decimal("1000"))
                        .shortfalls())
                .containsExactly(
                        new Shortfall(Reason.IMMEDIATELY_DANGEROUS, "silica"),
                        new Shortfall(Reason.BEYOND_FILTER, "silica"));
    }

    @Test
    void cartridgeAtItsLimitMayBeUsed() {
        Exposure air = new Exposure("solvent", decimal("1000"), decimal("100"), null, decimal("1000"));
        assertThat(Adequacy.of(List.of(air), MixtureEffect.ADDITIVE, decimal("10"))
                        .isAdequate())
                .isTrue();
    }

    @Test
    void nothingMeasuredIsNoRatio() {
        assertThatThrownBy(() -> exposure("0", "0.1"))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> assertThat(refused.code()).isEqualTo("calculation.concentration.notPositive"));
        assertThatThrownBy(() -> exposure("1", "-0.1")).hasMessageContaining("calculation.limit.notPositive");
        assertThatThrownBy(() -> HazardRatio.of(List.of(), MixtureEffect.ADDITIVE))
                .hasMessageContaining("calculation.exposures.none");
    }

    private static Adequacy judge(String concentration, String limit, String factor) {
        return Adequacy.of(List.of(exposure(concentration, limit)), MixtureEffect.ADDITIVE, decimal(factor));
    }

    private static Exposure exposure(String concentration, String limit) {
        return Exposure.of("substance", decimal(concentration), decimal(limit));
    }

    private static BigDecimal decimal(String value) {
        return new BigDecimal(value);
    }
}
