package org.hoodkeeper.calculation.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.calculation.AirCondition;
import org.hoodkeeper.calculation.FlowIndicator;
import org.hoodkeeper.calculation.MinimumFlow;
import org.hoodkeeper.calculation.measure.MeasurementChain.Calibrated;
import org.hoodkeeper.calculation.measure.MeasurementChain.Rejudged;
import org.hoodkeeper.calculation.measure.MeasurementChain.Result;
import org.hoodkeeper.calculation.measure.MeasurementChain.Standing;
import org.hoodkeeper.kernel.RecordId;
import org.junit.jupiter.api.Test;

/** Figures by hand: 190 shown by an indicator that reads 6 % high is 179.2; 175 shown is 165.0, below 170. */
class MeasurementChainTest {

    private static final AirCondition AIR = new AirCondition(new BigDecimal("20"), new BigDecimal("1013.25"));
    private static final FlowIndicator RIGHT = new FlowIndicator(AIR, BigDecimal.ONE, BigDecimal.ZERO);
    private static final MinimumFlow MINIMUM = MinimumFlow.inLocalAir(new BigDecimal("170"));

    private static Instant on(String day) {
        return Instant.parse(day + "T12:00:00Z");
    }

    private static Calibrated calibrated(String day, boolean inTolerance, String found, String until) {
        return new Calibrated(
                on(day), RIGHT, true, inTolerance, found == null ? null : new BigDecimal(found), on(until));
    }

    private static Result result(String day, String shown) {
        return new Result(new RecordId(UUID.randomUUID()), on(day), new BigDecimal(shown), AIR, MINIMUM);
    }

    @Test
    void whatTheNextCalibrationFindsWrongCountsNoLongerAndIsJudgedAgain() {
        List<Rejudged> chain = MeasurementChain.of(
                List.of(
                        calibrated("2026-06-01", false, "1.06", "2027-06-01"),
                        calibrated("2026-01-01", true, "1.00", "2027-01-01")),
                List.of(
                        result("2025-12-31", "190"),
                        result("2026-03-01", "190"),
                        result("2026-03-02", "175"),
                        result("2026-06-02", "175")));
        assertThat(chain)
                .extracting(Rejudged::standing)
                .containsExactly(Standing.NOT_CALIBRATED, Standing.FOUND_WRONG, Standing.FOUND_WRONG, Standing.COUNTS);
        assertThat(chain.get(1).withError().corrected()).isEqualByComparingTo("179.2");
        assertThat(chain.get(1).turned()).isFalse();
        assertThat(chain.get(2).asJudged().passed()).isTrue();
        assertThat(chain.get(2).withError().corrected()).isEqualByComparingTo("165.0");
        assertThat(chain.get(2).turned()).isTrue();
    }

    @Test
    void anErrorThatWasNotMeasuredTellsNothingAndPassesNothing() {
        List<Rejudged> chain = MeasurementChain.of(
                List.of(
                        calibrated("2026-01-01", true, null, "2027-01-01"),
                        calibrated("2026-06-01", false, null, "2027-06-01")),
                List.of(result("2026-03-01", "200")));
        assertThat(chain.get(0).standing()).isEqualTo(Standing.FOUND_WRONG);
        assertThat(chain.get(0).withError()).isNull();
        assertThat(chain.get(0).turned()).isFalse();
    }

    /** An indicator that came in reading low was wrong to the safe side; it is still not accepted. */
    @Test
    void readingLowIsNoExcuseEither() {
        List<Rejudged> chain = MeasurementChain.of(
                List.of(
                        calibrated("2026-01-01", true, null, "2027-01-01"),
                        calibrated("2026-06-01", false, "0.90", "2027-06-01")),
                List.of(result("2026-03-01", "175"), result("2026-03-02", "169")));
        assertThat(chain).allSatisfy(one -> assertThat(one.standing()).isEqualTo(Standing.FOUND_WRONG));
        assertThat(chain.get(0).withError().corrected()).isEqualByComparingTo("175.0");
        assertThat(chain.get(1).withError().passed())
                .as("nothing is passed by an error")
                .isFalse();
    }

    @Test
    void afterItsLastDayNothingCounts() {
        List<Rejudged> chain = MeasurementChain.of(
                List.of(calibrated("2026-01-01", true, null, "2026-03-01")), List.of(result("2026-03-01", "200")));
        assertThat(chain.get(0).standing()).isEqualTo(Standing.LAPSED);
    }
}
