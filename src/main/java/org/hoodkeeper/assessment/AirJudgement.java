package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.util.List;
import org.hoodkeeper.calculation.air.AirEdition;
import org.hoodkeeper.calculation.air.AirSample;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Outcome;

/** A test of breathing air against the limits of the edition that it names. */
public final class AirJudgement {

    private AirJudgement() {}

    /** Each component; empty for an edition whose limits are not held: then the laboratory's own word counts. */
    public static List<AirSample.Line> lines(AirTest test) {
        AirEdition edition = AirEdition.named(test.edition());
        return edition == null
                ? List.of()
                : new AirSample(
                                test.oxygenPercent(),
                                test.carbonMonoxidePpm(),
                                test.carbonDioxidePpm(),
                                test.oilMgPerM3(),
                                test.dewPointCelsius())
                        .against(
                                edition,
                                test.lowestCelsius(),
                                test.uncertaintyPercent() == null
                                        ? BigDecimal.ZERO
                                        : test.uncertaintyPercent().movePointLeft(2));
    }

    /** Called failed, or a measured component lies outside of its limit: a certificate's word does not make bad air good. */
    public static boolean failed(AirTest test) {
        if (test.outcome() == Outcome.FAIL) {
            return true;
        }
        for (AirSample.Line line : lines(test)) {
            if (line.outcome() == AirSample.Outcome.OUTSIDE) {
                return true;
            }
        }
        return false;
    }
}
