package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.hoodkeeper.calculation.trend.FlowTrend;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.store.FlowCourse;
import org.hoodkeeper.store.MeasuredFlow;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Plot;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Draws the flow of a set against its minimum: every check, what changed the set, the line and its bound. */
@Component
class FlowPicture {

    private static final int MOST = 60;
    private static final int PIECES = 48;
    private static final double EDGE = 12;
    private static final double SECONDS_A_DAY = 86_400;

    private final Words words;
    private final Show show;
    private final PlaceWords places;

    FlowPicture(Words words, Show show, PlaceWords places) {
        this.words = words;
        this.show = show;
        this.places = places;
    }

    private record Scale(double low, double high, Instant from, double seconds) {

        double up(double value) {
            return Plot.BOTTOM - (value - low) / (high - low) * (Plot.BOTTOM - Plot.TOP);
        }

        double across(Instant at) {
            double share = Duration.between(from, at).getSeconds() / seconds;
            return Plot.LEFT + EDGE + share * (Plot.RIGHT - Plot.LEFT - 2 * EDGE);
        }

        Instant until() {
            return from.plusSeconds((long) seconds);
        }

        boolean shows(Instant at) {
            return !at.isBefore(from) && !at.isAfter(until());
        }
    }

    /** None where nothing was measured, or the model has no minimum. @param title the finding */
    @Nullable Plot of(FlowCourse course, String title, ZoneId zone) {
        BigDecimal minimum = course.minimum();
        List<MeasuredFlow> shown = course.measured();
        if (minimum == null || shown.isEmpty()) {
            return null;
        }
        shown = shown.subList(Math.max(0, shown.size() - MOST), shown.size());
        Scale scale = scale(course, shown, minimum.doubleValue());
        List<Plot.Mark> marks = shown.stream()
                .map(one -> new Plot.Mark(
                        scale.across(one.at()), scale.up(one.drawn().doubleValue()), sort(one.result())))
                .toList();
        Plot.Level least = new Plot.Level(
                scale.up(minimum.doubleValue()), words.say("flow.plot.minimum", minimum), Plot.Weight.LIMIT);
        List<Plot.Curve> curves = new ArrayList<>(events(course, scale, zone));
        curves.addAll(lines(course, scale, least));
        return new Plot(
                title,
                words.say("flow.plot.across"),
                words.say("flow.plot.up"),
                days(shown, scale, zone),
                ticks(scale),
                List.of(least),
                marks,
                curves);
    }

    private static Plot.Mark.Sort sort(MeasuredFlow.Result result) {
        return switch (result) {
            case PASSED -> Plot.Mark.Sort.SEEN;
            case FAILED -> Plot.Mark.Sort.FAILED;
            case NOT_ACCEPTED -> Plot.Mark.Sort.REFUSED;
        };
    }

    /** From the first check shown to where something has to be done, but never so far that the checks are squeezed together. */
    private static Scale scale(FlowCourse course, List<MeasuredFlow> shown, double minimum) {
        double low = minimum;
        double high = minimum;
        for (MeasuredFlow one : shown) {
            low = Math.min(low, one.drawn().doubleValue());
            high = Math.max(high, one.drawn().doubleValue());
        }
        Instant first = shown.get(0).at();
        Instant last = shown.get(shown.size() - 1).at();
        double measured = Math.max(SECONDS_A_DAY, Duration.between(first, last).getSeconds());
        double until = measured;
        Instant act = course.actBefore();
        if (act != null) {
            double wanted = Duration.between(first, act).getSeconds() * 1.1;
            until = Math.max(measured, Math.min(wanted, measured + Math.max(3 * measured, 28 * SECONDS_A_DAY)));
        }
        return new Scale(Math.floor((low - 3) / 10) * 10, Math.ceil((high + 3) / 10) * 10, first, until);
    }

    private List<Plot.Curve> events(FlowCourse course, Scale scale, ZoneId zone) {
        List<Plot.Curve> events = new ArrayList<>();
        Told<?> last = course.lastChange();
        for (Told<?> change : course.changes()) {
            if (scale.shows(change.from())) {
                double x = scale.across(change.from());
                String text = change.equals(last)
                        ? words.say("flow.plot.changed", places.of(change.scope()))
                                .strip()
                        : null;
                events.add(upright(x, text, Plot.TOP - 4));
            }
        }
        Instant act = course.actBefore();
        if (act != null && scale.shows(act)) {
            events.add(upright(scale.across(act), words.say("flow.plot.act"), Plot.BOTTOM - 6));
        }
        return events;
    }

    private static Plot.Curve upright(double x, @Nullable String text, double textY) {
        return new Plot.Curve(
                Plot.path(x, Plot.TOP, x, Plot.BOTTOM),
                Plot.Curve.Sort.EVENT,
                text,
                Math.min(x + 4, Plot.RIGHT),
                textY);
    }

    /** The robust line and the bound, each cut where it leaves the picture, with labels that keep clear of the minimum's. */
    private List<Plot.Curve> lines(FlowCourse course, Scale scale, Plot.Level least) {
        FlowTrend trend = course.trend();
        if (trend == null) {
            return List.of();
        }
        double from = trend.points().get(0).x();
        double until = Math.max(from, course.day(scale.until()));
        double[] fit = points(course, scale, trend.robust()::at, from, until);
        double[] bound = points(course, scale, day -> trend.line().lowerBound(day, FlowTrend.LEVEL), from, until);
        String says = words.say("flow.plot.trend", perWeek(trend));
        String above = words.say("flow.plot.bound");
        List<Plot.Level> labels = Plot.apart(List.of(
                least,
                new Plot.Level(fit[fit.length - 1], says, Plot.Weight.DECIDES),
                new Plot.Level(bound[bound.length - 1], above, Plot.Weight.DECIDES)));
        return List.of(
                new Plot.Curve(Plot.path(fit), Plot.Curve.Sort.FIT, says, Plot.RIGHT + 11, textAt(labels, says)),
                new Plot.Curve(Plot.path(bound), Plot.Curve.Sort.BOUND, above, Plot.RIGHT + 11, textAt(labels, above)));
    }

    private static double textAt(List<Plot.Level> labels, String text) {
        return labels.stream()
                .filter(label -> label.text().equals(text))
                .findFirst()
                .orElseThrow()
                .textAt();
    }

    private static double[] points(
            FlowCourse course, Scale scale, DoubleUnaryOperator value, double from, double until) {
        List<Double> xys = new ArrayList<>();
        for (int i = 0; i <= PIECES; i++) {
            double day = from + (until - from) * i / PIECES;
            double y = scale.up(value.applyAsDouble(day));
            boolean inside = y >= Plot.TOP && y <= Plot.BOTTOM;
            if (inside) {
                xys.add(scale.across(course.instant(day)));
                xys.add(y);
            } else if (!xys.isEmpty()) {
                break;
            }
        }
        if (xys.isEmpty()) {
            return new double[] {Plot.RIGHT, Plot.BOTTOM};
        }
        return xys.stream().mapToDouble(Objects::requireNonNull).toArray();
    }

    /** L/min a week, to a tenth. */
    static BigDecimal perWeek(FlowTrend trend) {
        return BigDecimal.valueOf(trend.robust().slope() * 7).setScale(1, RoundingMode.HALF_UP);
    }

    private List<Plot.Tick> days(List<MeasuredFlow> shown, Scale scale, ZoneId zone) {
        List<Plot.Tick> days = new ArrayList<>();
        Instant last = shown.get(shown.size() - 1).at();
        days.add(tick(scale, scale.from(), zone));
        if (scale.across(last) - scale.across(scale.from()) > 80) {
            days.add(tick(scale, last, zone));
        }
        if (scale.across(scale.until()) - scale.across(last) > 80) {
            days.add(tick(scale, scale.until(), zone));
        }
        return days;
    }

    private Plot.Tick tick(Scale scale, Instant at, ZoneId zone) {
        return new Plot.Tick(scale.across(at), show.day(at.atZone(zone).toLocalDate()));
    }

    private List<Plot.Tick> ticks(Scale scale) {
        double range = scale.high() - scale.low();
        int every = range <= 80 ? 10 : range <= 160 ? 20 : 50;
        List<Plot.Tick> ticks = new ArrayList<>();
        for (int value = (int) Math.ceil(scale.low() / every) * every; value <= scale.high(); value += every) {
            ticks.add(new Plot.Tick(scale.up(value), show.count(value)));
        }
        return ticks;
    }
}
