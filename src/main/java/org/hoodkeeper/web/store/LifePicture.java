package org.hoodkeeper.web.store;

import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.calculation.life.KaplanMeier;
import org.hoodkeeper.calculation.life.Life;
import org.hoodkeeper.calculation.life.WeibullLife;
import org.hoodkeeper.store.PartLives;
import org.hoodkeeper.web.Plot;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Draws the share of parts still good against their length: each step, the parts still good, and the fitted curve. */
@Component
class LifePicture {

    private static final int PIECES = 48;

    private final Words words;

    LifePicture(Words words) {
        this.words = words;
    }

    /** None where no part has failed. @param title the finding */
    @Nullable Plot of(PartLives.Lived lived, PartLives.Unit unit, String title) {
        if (lived.survival().steps().isEmpty()) {
            return null;
        }
        double longest =
                Math.ceil(lived.lives().stream().mapToDouble(Life::length).max().orElse(1) * 1.05);
        List<Plot.Mark> marks = new ArrayList<>();
        for (KaplanMeier.Step step : lived.survival().steps()) {
            marks.add(new Plot.Mark(across(step.length(), longest), up(step.survival()), Plot.Mark.Sort.FAILED));
        }
        for (Life life : lived.lives()) {
            if (life.end() == Life.End.STILL_GOOD) {
                marks.add(new Plot.Mark(
                        across(life.length(), longest),
                        up(lived.survival().survival(life.length())),
                        Plot.Mark.Sort.BELOW));
            }
        }
        List<Plot.Curve> curves = new ArrayList<>();
        curves.add(new Plot.Curve(steps(lived.survival(), longest), Plot.Curve.Sort.FIT));
        List<Plot.Level> levels = List.of();
        WeibullLife fit = lived.fit();
        if (fit != null) {
            curves.add(new Plot.Curve(fitted(fit, longest), Plot.Curve.Sort.BOUND));
            levels = List.of(new Plot.Level(up(0.9), words.say("life.plot.tenth"), Plot.Weight.LIMIT));
        }
        return new Plot(
                title,
                words.say("life.plot.across." + unit),
                words.say("life.plot.up"),
                ticks(longest),
                List.of(new Plot.Tick(up(0), "0"), new Plot.Tick(up(0.5), "50"), new Plot.Tick(up(1), "100")),
                levels,
                marks,
                curves);
    }

    private static String steps(KaplanMeier survival, double longest) {
        List<Double> points = new ArrayList<>(List.of(Plot.LEFT, up(1)));
        double before = 1;
        for (KaplanMeier.Step step : survival.steps()) {
            double x = across(step.length(), longest);
            points.addAll(List.of(x, up(before), x, up(step.survival())));
            before = step.survival();
        }
        points.addAll(List.of(Plot.RIGHT, up(before)));
        return path(points);
    }

    private static String fitted(WeibullLife fit, double longest) {
        List<Double> points = new ArrayList<>();
        for (int i = 0; i <= PIECES; i++) {
            double length = longest * i / PIECES;
            points.addAll(List.of(across(length, longest), up(fit.survival(length))));
        }
        return path(points);
    }

    private static String path(List<Double> points) {
        return Plot.path(points.stream().mapToDouble(Double::doubleValue).toArray());
    }

    private static List<Plot.Tick> ticks(double longest) {
        double step = Math.pow(10, Math.floor(Math.log10(longest)));
        double apart = longest / step < 2.5 ? step / 2 : longest / step < 5 ? step : step * 2;
        List<Plot.Tick> ticks = new ArrayList<>();
        for (double at = 0; at <= longest; at += Math.max(1, apart)) {
            ticks.add(new Plot.Tick(across(at, longest), String.valueOf(Math.round(at))));
        }
        return ticks;
    }

    private static double across(double length, double longest) {
        return Plot.LEFT + length / longest * (Plot.RIGHT - Plot.LEFT);
    }

    private static double up(double share) {
        return Plot.BOTTOM - share * (Plot.BOTTOM - Plot.TOP);
    }
}
