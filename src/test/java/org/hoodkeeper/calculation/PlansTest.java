package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.Duration;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Batteries, cartridges and long shifts. */
class PlansTest {

    /** 5 h 40 measured with a loaded filter, 30 min kept: a swap by 5 h 10 for 6 h 30, looks at 4 h and 6 h. */
    @Test
    void aLongStintNeedsASwapAndTwoLooks() {
        BatteryPlan plan = BatteryPlan.of(
                Duration.ofMinutes(340), BigDecimal.ONE, Duration.ofMinutes(30), Duration.ofMinutes(390));
        assertThat(plan.usable()).isEqualTo(Duration.ofMinutes(310));
        assertThat(plan.batteries()).isEqualTo(2);
        assertThat(plan.swapBy()).containsExactly(Duration.ofMinutes(310));
        assertThat(plan.checks()).containsExactly(Duration.ofHours(4), Duration.ofHours(6));
    }

    @Test
    void aStintOfExactlyTheUsableTimeNeedsNoSwap() {
        assertThat(BatteryPlan.of(
                                Duration.ofMinutes(480),
                                new BigDecimal("0.75"),
                                Duration.ofMinutes(30),
                                Duration.ofMinutes(330))
                        .swapBy())
                .isEmpty();
    }

    @Test
    void aReserveThatEatsTheBatteryIsRefused() {
        refuses(
                () -> BatteryPlan.of(
                        Duration.ofMinutes(30), BigDecimal.ONE, Duration.ofMinutes(30), Duration.ofMinutes(60)),
                "calculation.battery.nothing");
        refuses(
                () -> BatteryPlan.of(
                        Duration.ofMinutes(30), new BigDecimal("1.2"), Duration.ZERO, Duration.ofMinutes(60)),
                "calculation.battery.load");
    }

    /** OSHA rule of thumb (AIHA ch. 36, verified): 200 ppm 8 h, 20 ppm 40 h; 1.5 times the work 5.33 h; 90 % humidity 4 h. */
    @ParameterizedTest
    @CsvSource({
        "200, 100, 1, 50, 8.00, 8.00",
        "20, 100, 1, 50, 40.00, 8.00",
        "50, 100, 1, 50, 21.08, 8.00",
        "200, 100, 1.5, 50, 5.33, 5.33",
        "200, 100, 1, 85, 8.00, 8.00",
        "200, 100, 1, 90, 4.00, 4.00"
    })
    void theRuleOfThumb(String ppm, String boils, String work, String humidity, String estimate, String use) {
        CartridgeLife.Life life = CartridgeLife.ruleOfThumb(
                new BigDecimal(ppm), new BigDecimal(boils), new BigDecimal(work), new BigDecimal(humidity));
        assertThat(life.estimate()).isEqualByComparingTo(estimate);
        assertThat(life.use()).isEqualByComparingTo(use);
    }

    /** Above 70 °C, not below: butadiene boils at −4.7 °C, and at exactly 70 °C nothing is promised either. */
    @Test
    void whatBoilsAtSeventyDegreesOrLessHasNoRuleOfThumb() {
        for (String boils : new String[] {"-4.7", "70"}) {
            refuses(
                    () -> CartridgeLife.ruleOfThumb(
                            new BigDecimal("50"), new BigDecimal(boils), BigDecimal.ONE, BigDecimal.TEN),
                    "calculation.cartridge.boils");
        }
        refuses(
                () -> CartridgeLife.ruleOfThumb(
                        new BigDecimal("201"), new BigDecimal("100"), BigDecimal.ONE, BigDecimal.TEN),
                "calculation.cartridge.ppm");
    }

    /** Brief and Scala: 12 h one half, 10 h 0.7 (from memory, high); lead 400 ÷ h: 40 of 50 at 10 h, 33.3 at 12 h. */
    @ParameterizedTest
    @CsvSource({
        "BRIEF_SCALA, 8, 1",
        "BRIEF_SCALA, 12, 0.5",
        "BRIEF_SCALA, 10, 0.7",
        "PROPORTIONAL, 10, 0.8",
        "PROPORTIONAL, 12, 0.66666666666666666667",
        "NONE, 12, 1",
        "BRIEF_SCALA, 6, 1"
    })
    void aLongShiftLeavesLessOfTheLimit(OddShift rule, String hours, String share) {
        assertThat(rule.of(new BigDecimal(hours))).isEqualByComparingTo(share);
    }

    @Test
    void aShiftLeavesAnHourOfTheDay() {
        refuses(() -> OddShift.BRIEF_SCALA.of(new BigDecimal("24")), "calculation.shift.hours");
        refuses(() -> OddShift.NONE.of(BigDecimal.ZERO), "calculation.shift.hours");
    }

    private static void refuses(Runnable sum, String code) {
        assertThatThrownBy(sum::run)
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo(code));
    }
}
