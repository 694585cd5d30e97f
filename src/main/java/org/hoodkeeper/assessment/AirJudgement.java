package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.calculation.air.AirEdition;
import org.hoodkeeper.calculation.air.AirLimit;
import org.hoodkeeper.calculation.air.AirSample;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.PublishedLimit;
import org.jspecify.annotations.Nullable;

/**
 * A test of breathing air against the limits of the edition that its certificate names and those of the rule set in force, of
 * each component the stricter: an old or foreign edition allows what the wearer's own rules do not. The limits stand with their
 * sources in the rule set and at {@link AirEdition}.
 *
 * @param lines each component that is limited; empty where neither edition nor rule set says anything
 */
public record AirJudgement(AirTest test, List<AirSample.Line> lines) {

    public static AirJudgement of(AirTest test, InForce rules) {
        AirSample sample = new AirSample(
                test.oxygenPercent(),
                test.carbonMonoxidePpm(),
                test.carbonDioxidePpm(),
                test.oilMgPerM3(),
                test.dewPointCelsius());
        BigDecimal uncertainty = test.uncertaintyPercent() == null
                ? BigDecimal.ZERO
                : test.uncertaintyPercent().movePointLeft(2);
        return new AirJudgement(test, sample.against(limits(test, rules), uncertainty));
    }

    private static Map<AirSample.Component, AirLimit> limits(AirTest test, InForce rules) {
        Map<AirSample.Component, AirLimit> limits = new EnumMap<>(AirSample.Component.class);
        AirEdition edition = AirEdition.named(test.edition());
        if (edition != null) {
            limits.putAll(edition.limits(test.lowestCelsius()));
        }
        for (AirSample.Component component : AirSample.Component.values()) {
            // whatever type hangs on the supply: it is the same air
            for (PublishedLimit limit : rules.limits(quantity(component))) {
                limits.merge(component, read(limit, test.lowestCelsius()), AirLimit::and);
            }
        }
        return limits;
    }

    private static PublishedLimit.Quantity quantity(AirSample.Component component) {
        return switch (component) {
            case OXYGEN -> PublishedLimit.Quantity.SUPPLIED_OXYGEN;
            case CARBON_MONOXIDE -> PublishedLimit.Quantity.SUPPLIED_CARBON_MONOXIDE;
            case CARBON_DIOXIDE -> PublishedLimit.Quantity.SUPPLIED_CARBON_DIOXIDE;
            case OIL -> PublishedLimit.Quantity.SUPPLIED_OIL;
            case DEW_POINT -> PublishedLimit.Quantity.SUPPLIED_DEW_POINT_MARGIN;
        };
    }

    private static AirLimit read(PublishedLimit limit, @Nullable BigDecimal lowest) {
        return limit.quantity() == PublishedLimit.Quantity.SUPPLIED_DEW_POINT_MARGIN
                ? AirLimit.of(null, dewPoint(limit, lowest))
                : new AirLimit(limit.atLeast(), limit.atMost(), true);
    }

    /** Below the lowest temperature by the margin; where nobody knows that, what the limit's own source says then, if anything. */
    private static @Nullable BigDecimal dewPoint(PublishedLimit limit, @Nullable BigDecimal lowest) {
        if (lowest != null && limit.atLeast() != null) {
            return lowest.subtract(limit.atLeast());
        }
        AirEdition source = AirEdition.named(limit.provenance().source());
        return source == null ? null : source.dewPointWhereUnknown();
    }

    /** Called failed, or a measured component lies outside of its limit: a certificate's word does not make bad air good. */
    public boolean failed() {
        return test.outcome() == Outcome.FAIL || !outside().isEmpty();
    }

    public List<AirSample.Component> outside() {
        return those(AirSample.Outcome.OUTSIDE);
    }

    /** What is limited and was not measured, or whose limit depends on something nobody told: the test proves nothing of it. */
    public List<AirSample.Component> unknown() {
        return those(AirSample.Outcome.UNKNOWN);
    }

    private List<AirSample.Component> those(AirSample.Outcome outcome) {
        return lines.stream()
                .filter(line -> line.outcome() == outcome)
                .map(AirSample.Line::component)
                .toList();
    }
}
