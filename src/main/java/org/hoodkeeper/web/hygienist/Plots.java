package org.hoodkeeper.web.hygienist;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.DoubleStream;
import org.hoodkeeper.assessment.AirPart;
import org.hoodkeeper.calculation.ExposureStatistics;
import org.hoodkeeper.calculation.ProbabilityPlot;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.web.Plot;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.springframework.stereotype.Component;

/** Draws the results of one substance and group: through time, and on log-probability paper. */
@Component
class Plots {

    private static final double[] SHARES = {0.05, 0.25, 0.5, 0.75, 0.95};
    private static final int MOST_FACTORS = 3;

    private final Words words;
    private final Show show;

    Plots(Words words, Show show) {
        this.words = words;
        this.show = show;
    }

    /** A value worth a line: the limit, what the models in question cover, the deciding figure. */
    private record Value(double value, String text, Plot.Weight weight) {}

    private record Scale(double low, double high) {

        double up(double value) {
            double share = (Math.log10(value) - low) / (high - low);
            return Plot.BOTTOM - share * (Plot.BOTTOM - Plot.TOP);
        }
    }

    /** @param unit only results in it: figures of several units have no axis in common */
    Plot throughTime(TaskSheet sheet, TaskSheet.Samples samples, String unit, ZoneId zone) {
        List<Value> values = values(sheet, samples, unit);
        List<Told<ExposureResult>> results = samples.results().stream()
                .filter(told -> told.fact().unit().equals(unit))
                .toList();
        Scale scale = scale(results, values);
        Instant first = results.get(0).from();
        Instant last = results.get(results.size() - 1).from();
        double span = Math.max(1, last.getEpochSecond() - first.getEpochSecond());
        DoubleUnaryOperator across = seconds -> Plot.LEFT + 14 + seconds / span * (Plot.RIGHT - Plot.LEFT - 28);
        List<Plot.Mark> marks = results.stream()
                .map(told -> new Plot.Mark(
                        across.applyAsDouble(told.from().getEpochSecond() - first.getEpochSecond()),
                        scale.up(told.fact().value().doubleValue()),
                        told.fact().belowDetection() ? Plot.Mark.Sort.BELOW : Plot.Mark.Sort.SEEN))
                .toList();
        LocalDate from = first.atZone(zone).toLocalDate();
        LocalDate until = last.atZone(zone).toLocalDate();
        List<Plot.Tick> days = new ArrayList<>();
        days.add(new Plot.Tick(across.applyAsDouble(0), show.day(from)));
        if (!until.equals(from)) {
            days.add(new Plot.Tick(across.applyAsDouble(span), show.day(until)));
        }
        return new Plot(
                title("plot.time", sheet, samples, results.size()),
                words.say("plot.sampled"),
                words.say("plot.concentration", show.unit(unit)),
                days,
                ticks(scale),
                levels(values, scale),
                marks,
                List.of());
    }

    Plot onPaper(TaskSheet sheet, TaskSheet.Samples samples) {
        List<Value> values = values(sheet, samples, unit(samples));
        Scale scale = scale(samples.results(), values);
        double edge = 2.0;
        DoubleUnaryOperator across = score -> Plot.LEFT + (score + edge) / (2 * edge) * (Plot.RIGHT - Plot.LEFT);
        List<Plot.Mark> marks = samples.points().stream()
                .map(point -> new Plot.Mark(
                        across.applyAsDouble(Math.max(-edge, Math.min(edge, point.score()))),
                        scale.up(point.sample().value().doubleValue()),
                        Plot.Mark.Sort.SEEN))
                .toList();
        List<Plot.Tick> shares = DoubleStream.of(SHARES)
                .mapToObj(share -> new Plot.Tick(
                        across.applyAsDouble(ProbabilityPlot.score(share)),
                        words.say("plot.percent", Math.round(share * 100))))
                .toList();
        ExposureStatistics statistics = samples.statistics();
        List<Plot.Curve> line = statistics == null ? List.of() : List.of(line(statistics, scale, across, edge));
        return new Plot(
                title("plot.paper", sheet, samples, samples.results().size()),
                words.say("plot.share"),
                words.say("plot.concentration", show.unit(unit(samples))),
                shares,
                ticks(scale),
                levels(values, scale),
                marks,
                line);
    }

    /** From edge to edge, cut where it would leave the picture. */
    private static Plot.Curve line(
            ExposureStatistics statistics, Scale scale, DoubleUnaryOperator across, double edge) {
        double mean = Math.log10(statistics.geometricMean());
        double slope = Math.log10(statistics.geometricDeviation());
        double from = Math.max(-edge, (scale.low() - mean) / slope);
        double until = Math.min(edge, (scale.high() - mean) / slope);
        return new Plot.Curve(
                Plot.path(
                        across.applyAsDouble(from),
                        scale.up(Math.pow(10, mean + slope * from)),
                        across.applyAsDouble(until),
                        scale.up(Math.pow(10, mean + slope * until))),
                Plot.Curve.Sort.FIT);
    }

    private String title(String key, TaskSheet sheet, TaskSheet.Samples samples, int drawn) {
        if (samples.statistics() == null) {
            return words.say(key + ".few", samples.substance(), drawn);
        }
        String says = show.figure(samples.statistics().deciding(sheet.statistic()), unit(samples));
        String statistic = words.say("exposureSheet.statistic." + sheet.statistic());
        AirPart part = sheet.shift(samples.substance());
        if (part == null || sheet.isDecidedBy(samples)) {
            return words.say(key, samples.substance(), says, statistic);
        }
        return words.say(
                key + "." + part.origin(),
                samples.substance(),
                says,
                statistic,
                show.figure(part.value(), part.unit()));
    }

    static String unit(TaskSheet.Samples samples) {
        return samples.results().get(0).fact().unit();
    }

    private List<Value> values(TaskSheet sheet, TaskSheet.Samples samples, String unit) {
        List<Value> values = new ArrayList<>();
        BigDecimal limit = samples.limitValue();
        if (limit != null) {
            values.add(new Value(limit.doubleValue(), words.say("plot.limit", show.figure(limit)), Plot.Weight.LIMIT));
            sheet.models().stream()
                    .filter(line -> line.factor() != null)
                    .map(line -> line.factor().value())
                    .distinct()
                    .sorted()
                    .limit(MOST_FACTORS)
                    .forEach(factor -> values.add(new Value(
                            limit.multiply(factor).doubleValue(),
                            words.say("plot.factor", show.figure(factor), models(sheet, factor)),
                            Plot.Weight.FACTOR)));
        }
        boolean decided = sheet.isDecidedBy(samples);
        if (samples.statistics() != null) {
            BigDecimal says = samples.statistics().deciding(sheet.statistic());
            values.add(
                    decided
                            ? new Value(
                                    says.doubleValue(),
                                    words.say("plot.decides", show.figure(says)),
                                    Plot.Weight.DECIDES)
                            : new Value(
                                    says.doubleValue(), words.say("plot.says", show.figure(says)), Plot.Weight.SAYS));
        }
        AirPart part = sheet.shift(samples.substance());
        if (!decided && part != null && part.unit().equals(unit)) {
            values.add(new Value(
                    part.value().doubleValue(),
                    words.say("plot.decides." + part.origin(), show.figure(part.value())),
                    Plot.Weight.DECIDES));
        }
        return values;
    }

    private static String models(TaskSheet sheet, BigDecimal factor) {
        List<String> codes = sheet.models().stream()
                .filter(line -> line.factor() != null && line.factor().value().compareTo(factor) == 0)
                .map(TaskSheet.ModelLine::code)
                .toList();
        return codes.size() <= 2 ? String.join(", ", codes) : codes.get(0) + ", " + codes.get(1) + " …";
    }

    /** A decade more than what is drawn, cut to thirds of one. */
    private static Scale scale(List<Told<ExposureResult>> results, List<Value> values) {
        double low = Double.MAX_VALUE;
        double high = 0;
        for (Told<ExposureResult> told : results) {
            low = Math.min(low, told.fact().value().doubleValue());
            high = Math.max(high, told.fact().value().doubleValue());
        }
        for (Value value : values) {
            low = Math.min(low, value.value());
            high = Math.max(high, value.value());
        }
        return new Scale(Math.floor(Math.log10(low) * 3 - 0.3) / 3, Math.ceil(Math.log10(high) * 3 + 0.3) / 3);
    }

    private List<Plot.Tick> ticks(Scale scale) {
        List<Plot.Tick> ticks = new ArrayList<>();
        boolean wide = scale.high() - scale.low() > 3;
        for (int decade = (int) Math.floor(scale.low()); decade <= scale.high(); decade++) {
            for (int digit : wide ? new int[] {1} : new int[] {1, 3}) {
                double value = digit * Math.pow(10, decade);
                if (Math.log10(value) >= scale.low() && Math.log10(value) <= scale.high()) {
                    ticks.add(new Plot.Tick(
                            scale.up(value),
                            show.figure(new BigDecimal(value, new MathContext(2)).stripTrailingZeros())));
                }
            }
        }
        return ticks;
    }

    private static List<Plot.Level> levels(List<Value> values, Scale scale) {
        return Plot.apart(values.stream()
                .map(value -> new Plot.Level(scale.up(value.value()), value.text(), value.weight()))
                .toList());
    }
}
