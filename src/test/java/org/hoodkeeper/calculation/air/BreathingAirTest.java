package org.hoodkeeper.calculation.air;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import org.hoodkeeper.calculation.air.AirSample.Component;
import org.hoodkeeper.calculation.air.AirSample.Outcome;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Limits: EN 12021 by a test house's page, restated; Grade D by 29 CFR 1910.134(i). */
class BreathingAirTest {

    private static Outcome outcome(AirEdition edition, Component component, String value, String lowest) {
        BigDecimal measured = new BigDecimal(value);
        AirSample sample = new AirSample(
                component == Component.OXYGEN ? measured : null,
                component == Component.CARBON_MONOXIDE ? measured : null,
                component == Component.CARBON_DIOXIDE ? measured : null,
                component == Component.OIL ? measured : null,
                component == Component.DEW_POINT ? measured : null);
        return sample.against(edition.limits(lowest == null ? null : new BigDecimal(lowest)), BigDecimal.ZERO).stream()
                .filter(line -> line.component() == component)
                .findFirst()
                .orElseThrow()
                .outcome();
    }

    @ParameterizedTest
    @CsvSource({
        "EN_12021_2014, CARBON_MONOXIDE, 5, , WITHIN",
        "EN_12021_2014, CARBON_MONOXIDE, 5.1, , OUTSIDE",
        "EN_12021_1999, CARBON_MONOXIDE, 15, , WITHIN",
        "EN_12021_1999, CARBON_MONOXIDE, 15.1, , OUTSIDE",
        "US_GRADE_D, CARBON_MONOXIDE, 10, , WITHIN",
        "US_GRADE_D, CARBON_MONOXIDE, 11, , OUTSIDE",
        "EN_12021_2014, OXYGEN, 20, , WITHIN",
        "EN_12021_2014, OXYGEN, 19.9, , OUTSIDE",
        "EN_12021_2014, OXYGEN, 22.1, , OUTSIDE",
        "US_GRADE_D, OXYGEN, 19.5, , WITHIN",
        "US_GRADE_D, OXYGEN, 23.6, , OUTSIDE",
        "EN_12021_2014, CARBON_DIOXIDE, 501, , OUTSIDE",
        "US_GRADE_D, CARBON_DIOXIDE, 1000, , WITHIN",
        "EN_12021_2014, OIL, 0.5, , WITHIN",
        "US_GRADE_D, OIL, 5.1, , OUTSIDE",
        "EN_12021_2014, DEW_POINT, -11, , WITHIN",
        "EN_12021_2014, DEW_POINT, -10, , OUTSIDE",
        "EN_12021_2014, DEW_POINT, -3, 2, WITHIN",
        "EN_12021_2014, DEW_POINT, -2.9, 2, OUTSIDE",
        "US_GRADE_D, DEW_POINT, -3.56, 2, WITHIN",
        "US_GRADE_D, DEW_POINT, -3.5, 2, OUTSIDE",
        "US_GRADE_D, DEW_POINT, -40, , UNKNOWN"
    })
    void eachComponentAgainstItsEdition(
            AirEdition edition, Component component, String value, String lowest, Outcome expected) {
        assertThat(outcome(edition, component, value, lowest)).isEqualTo(expected);
    }

    @Test
    void whatWasNotMeasuredProvesNothing() {
        assertThat(new AirSample(null, null, null, null, null)
                        .against(AirEdition.EN_12021_2014.limits(null), BigDecimal.ZERO))
                .hasSize(5)
                .allSatisfy(line -> assertThat(line.outcome()).isEqualTo(Outcome.UNKNOWN));
    }

    /** 4.8 ppm and a tenth of it may be 5.28. */
    @Test
    void whatIsUncertainCountsAgainstTheAir() {
        AirSample sample = new AirSample(null, new BigDecimal("4.8"), null, null, null);
        assertThat(sample.against(AirEdition.EN_12021_2014.limits(null), BigDecimal.ZERO)
                        .get(1)
                        .outcome())
                .isEqualTo(Outcome.WITHIN);
        assertThat(sample.against(AirEdition.EN_12021_2014.limits(null), new BigDecimal("0.1"))
                        .get(1)
                        .outcome())
                .isEqualTo(Outcome.OUTSIDE);
    }

    /** 20 to 22 and 19.5 to 23.5 together; −11 °C and a limit that depends on what nobody told: −40 may be wet, +5 is. */
    @Test
    void ofTwoLimitsTheStricterCounts() {
        AirLimit oxygen = AirLimit.of(new BigDecimal("20"), new BigDecimal("23.5"))
                .and(AirLimit.of(new BigDecimal("19.5"), new BigDecimal("22")));
        assertThat(oxygen).isEqualTo(new AirLimit(new BigDecimal("20"), new BigDecimal("22"), true));
        AirLimit dewPoint = AirLimit.of(null, new BigDecimal("-11")).and(AirLimit.of(null, null));
        assertThat(dewPoint.judge(new BigDecimal("-40"), BigDecimal.ZERO)).isEqualTo(Outcome.UNKNOWN);
        assertThat(dewPoint.judge(new BigDecimal("5"), BigDecimal.ZERO)).isEqualTo(Outcome.OUTSIDE);
    }

    @Test
    void theEditionIsReadFromTheCertificate() {
        assertThat(AirEdition.named("en 12021 : 2014")).isEqualTo(AirEdition.EN_12021_2014);
        assertThat(AirEdition.named("EN 12021:1999")).isEqualTo(AirEdition.EN_12021_1999);
        assertThat(AirEdition.named("EN 12021")).as("no year, no limits").isNull();
    }

    /** 1,200 L/min at 280 L/min for a hood and a tenth lost: three hoods take 924, four 1,232. */
    @Test
    void hoodsAtOnce() {
        AirDemand demand = new AirDemand(new BigDecimal("1200"), new BigDecimal("280"), new BigDecimal("0.1"));
        assertThat(demand.most()).isEqualTo(3);
        assertThat(demand.of(4)).isEqualByComparingTo("1232");
        assertThat(demand.feeds(3)).isTrue();
        assertThat(demand.feeds(4)).isFalse();
        assertThat(new AirDemand(new BigDecimal("1232"), new BigDecimal("280"), new BigDecimal("0.1")).most())
                .isEqualTo(4);
        assertThatThrownBy(() -> new AirDemand(BigDecimal.ZERO, BigDecimal.ONE, BigDecimal.ZERO))
                .isInstanceOf(Refused.class);
    }
}
