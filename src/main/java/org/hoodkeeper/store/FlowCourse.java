package org.hoodkeeper.store;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.hoodkeeper.calculation.trend.FlowTrend;
import org.hoodkeeper.calculation.trend.Point;
import org.hoodkeeper.calculation.trend.StepChange;
import org.hoodkeeper.facts.Told;
import org.jspecify.annotations.Nullable;

/**
 * The flow of one set through time, as known now.
 *
 * @param measured every measurement, oldest first
 * @param changes part changes and repairs, oldest first: each begins a new line
 * @param minimum of the model now, L/min; none where the device has none
 * @param now the moment of the page
 */
public record FlowCourse(
        List<MeasuredFlow> measured,
        List<Told<?>> changes,
        @Nullable BigDecimal minimum,
        Instant now) {

    /** How far ahead the lines are followed, days. */
    public static final int HORIZON = 365;

    /**
     * The smallest step that means anything, L/min: what two readings of one flow with a hand-held indicator may differ by. Common
     * practice, no source; a larger stated uncertainty takes its place.
     */
    private static final double LEAST_STEP = 5;

    private static final double SECONDS_A_DAY = 86_400;

    public FlowCourse {
        measured = List.copyOf(measured);
        changes = List.copyOf(changes);
    }

    /** The last change of the set's state; none where there was none. */
    public @Nullable Told<?> lastChange() {
        return changes.isEmpty() ? null : changes.get(changes.size() - 1);
    }

    /** Accepted measurements since the last change, oldest first: what the lines rest on. */
    public List<MeasuredFlow> since() {
        Told<?> change = lastChange();
        return measured.stream()
                .filter(MeasuredFlow::isAccepted)
                .filter(one -> change == null || !one.at().isBefore(change.from()))
                .toList();
    }

    /** Where the lines begin; none without an accepted measurement. */
    public @Nullable Instant origin() {
        List<MeasuredFlow> since = since();
        return since.isEmpty() ? null : since.get(0).at();
    }

    /** Days since the origin. */
    public double day(Instant at) {
        Instant origin = origin();
        return origin == null ? 0 : Duration.between(origin, at).getSeconds() / SECONDS_A_DAY;
    }

    public Instant instant(double day) {
        Instant origin = origin();
        return (origin == null ? now : origin).plusSeconds((long) (day * SECONDS_A_DAY));
    }

    private List<Point> points() {
        return since().stream()
                .map(one -> new Point(day(one.at()), one.drawn().doubleValue()))
                .toList();
    }

    private double leastStep() {
        return since().stream()
                .map(MeasuredFlow::yardstick)
                .mapToDouble(yardstick -> yardstick == null
                        ? 0
                        : yardstick.indicator().uncertainty().doubleValue())
                .reduce(LEAST_STEP, Math::max);
    }

    /** A sudden step since the last change: a fault, not ageing; none where the flow ran steadily. */
    public @Nullable StepChange step() {
        return StepChange.newest(points(), leastStep());
    }

    /** The line to the minimum; none with too few accepted measurements since the last change or step. */
    public @Nullable FlowTrend trend() {
        return minimum == null ? null : FlowTrend.of(points(), minimum.doubleValue(), leastStep(), HORIZON);
    }

    /** When a single reading may lie below the minimum; none where neither line meets it within the horizon. */
    public @Nullable Instant actBefore() {
        FlowTrend trend = trend();
        Double before = trend == null ? null : trend.actBefore();
        return before == null || before > day(now) + HORIZON ? null : instant(before);
    }

    /** The newest accepted measurement; none where nothing counts. */
    public @Nullable MeasuredFlow last() {
        List<MeasuredFlow> accepted =
                measured.stream().filter(MeasuredFlow::isAccepted).toList();
        return accepted.isEmpty() ? null : accepted.get(accepted.size() - 1);
    }
}
