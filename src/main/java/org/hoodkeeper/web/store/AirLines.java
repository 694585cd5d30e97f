package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.assessment.AirJudgement;
import org.hoodkeeper.calculation.air.AirSample;
import org.hoodkeeper.calculation.trend.Point;
import org.hoodkeeper.calculation.trend.TheilSen;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.web.Plot;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Puts tests of breathing air into words and one picture: each component against its limit, and carbon monoxide through time. */
@Component
class AirLines {

    private static final double SECONDS_A_DAY = 86_400;
    private static final double QUARTER = 91;

    private final Words words;
    private final Show show;

    AirLines(Words words, Show show) {
        this.words = words;
        this.show = show;
    }

    /** @param tone of the outcome, as verdicts have */
    public record AirLine(String component, String measured, String limit, String outcome, String tone) {}

    /** Each component that is limited; empty where neither the edition nor a rule set says anything. */
    List<AirLine> of(AirTest test, InForce rules) {
        return AirJudgement.of(test, rules).lines().stream().map(this::line).toList();
    }

    private AirLine line(AirSample.Line line) {
        String unit = unit(line.component());
        return new AirLine(
                words.say("kinds.AirSampleComponent." + line.component()),
                line.measured() == null ? words.say("supply.air.notMeasured") : show.figure(line.measured(), unit),
                limit(line, unit),
                words.say("supply.air.outcome." + line.outcome()),
                switch (line.outcome()) {
                    case WITHIN -> "clear";
                    case OUTSIDE -> "barred";
                    case UNKNOWN -> "half";
                });
    }

    private String limit(AirSample.Line line, String unit) {
        boolean untold = line.measured() != null && line.outcome() == AirSample.Outcome.UNKNOWN;
        if (line.most() == null || untold) {
            return words.say("supply.air.limit.unknown");
        }
        return line.least() == null
                ? words.say("supply.air.limit.most", show.figure(line.most(), unit))
                : words.say(
                        "supply.air.limit.between", show.figure(line.least(), unit), show.figure(line.most(), unit));
    }

    private static String unit(AirSample.Component component) {
        return switch (component) {
            case OXYGEN -> "%";
            case CARBON_MONOXIDE, CARBON_DIOXIDE -> "ppm";
            case OIL -> "mg/m³";
            case DEW_POINT -> "°C";
        };
    }

    /** Tests that measured carbon monoxide, oldest first. */
    private static List<Told<AirTest>> measured(List<Told<AirTest>> newestFirst) {
        List<Told<AirTest>> measured = new ArrayList<>();
        for (Told<AirTest> told : newestFirst) {
            if (told.fact().carbonMonoxidePpm() != null) {
                measured.add(0, told);
            }
        }
        return measured;
    }

    /** How carbon monoxide runs; none with fewer than three tests at different times. */
    @Nullable String trend(List<Told<AirTest>> newestFirst) {
        List<Point> points = points(measured(newestFirst));
        if (points.size() < 3
                || points.stream().mapToDouble(Point::x).distinct().count() < 2) {
            return null;
        }
        BigDecimal slope =
                BigDecimal.valueOf(TheilSen.of(points).slope() * QUARTER).setScale(1, RoundingMode.HALF_UP);
        return words.say(slope.signum() > 0 ? "supply.trend.rises" : "supply.trend.steady", points.size(), slope.abs());
    }

    private static List<Point> points(List<Told<AirTest>> oldestFirst) {
        List<Point> points = new ArrayList<>();
        for (Told<AirTest> told : oldestFirst) {
            BigDecimal ppm = told.fact().carbonMonoxidePpm();
            if (ppm != null) {
                Instant first = oldestFirst.get(0).from();
                points.add(new Point(
                        Duration.between(first, told.from()).getSeconds() / SECONDS_A_DAY, ppm.doubleValue()));
            }
        }
        return points;
    }

    /** None with fewer than two tests. @param title the finding */
    @Nullable Plot picture(List<Told<AirTest>> newestFirst, String title, InForce rules, ZoneId zone) {
        List<Told<AirTest>> measured = measured(newestFirst);
        if (measured.size() < 2) {
            return null;
        }
        List<Point> points = points(measured);
        BigDecimal limit = AirJudgement.of(measured.get(measured.size() - 1).fact(), rules).lines().stream()
                .filter(line -> line.component() == AirSample.Component.CARBON_MONOXIDE)
                .map(AirSample.Line::most)
                .findFirst()
                .orElse(null);
        double high = Math.max(
                limit == null ? 1 : limit.doubleValue(),
                points.stream().mapToDouble(Point::y).max().orElse(1));
        double top = Math.ceil(high * 1.1);
        double span = Math.max(1, points.get(points.size() - 1).x());
        List<Plot.Mark> marks = points.stream()
                .map(point -> new Plot.Mark(across(point.x() / span), up(point.y() / top), Plot.Mark.Sort.SEEN))
                .toList();
        List<Plot.Level> levels = limit == null
                ? List.of()
                : List.of(new Plot.Level(
                        up(limit.doubleValue() / top), words.say("plot.limit", limit), Plot.Weight.LIMIT));
        return new Plot(
                title,
                words.say("supply.plot.across"),
                words.say("supply.plot.up"),
                List.of(
                        tick(0, measured.get(0).from(), zone),
                        tick(1, measured.get(measured.size() - 1).from(), zone)),
                List.of(new Plot.Tick(up(0), show.count(0)), new Plot.Tick(up(1), show.count((long) top))),
                levels,
                marks,
                List.of());
    }

    private Plot.Tick tick(double share, Instant at, ZoneId zone) {
        return new Plot.Tick(across(share), show.day(at.atZone(zone).toLocalDate()));
    }

    private static double across(double share) {
        return Plot.LEFT + 14 + share * (Plot.RIGHT - Plot.LEFT - 28);
    }

    private static double up(double share) {
        return Plot.BOTTOM - share * (Plot.BOTTOM - Plot.TOP);
    }
}
