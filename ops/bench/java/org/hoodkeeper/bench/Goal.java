package org.hoodkeeper.bench;

import java.util.Arrays;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** One line of the table. It is {@code ok} only if every round met the goal. */
final class Goal {

    private static final String LINE = "| %s | %s | %s | %s | %s | %s |%n";

    private Goal() {}

    static void head() {
        System.out.printf(LINE, "Goal", "measured", "compared with", "ratio (spread)", "goal", "");
        System.out.println("|---|---|---|---|---|---|");
    }

    /** At most so many times the comparator, round by round. */
    static void atMost(String name, String unit, double[] measured, double[] compared, double most) {
        double[] ratios = new double[measured.length];
        for (int i = 0; i < ratios.length; i++) {
            ratios[i] = measured[i] / compared[i];
        }
        line(
                name,
                number(median(measured)) + " " + unit,
                number(median(compared)) + " " + unit,
                spread(ratios),
                "≤ " + number(most) + " ×",
                max(ratios) <= most);
    }

    /** At least this share of the comparator, round by round. */
    static void atLeast(String name, String unit, double[] measured, double[] compared, double least) {
        double[] ratios = new double[measured.length];
        for (int i = 0; i < ratios.length; i++) {
            ratios[i] = measured[i] / compared[i];
        }
        line(
                name,
                number(median(measured)) + " " + unit,
                number(median(compared)) + " " + unit,
                spread(ratios),
                "≥ " + number(least) + " ×",
                min(ratios) >= least);
    }

    static void below(String name, String unit, double[] measured, double most) {
        line(name, spread(measured) + " " + unit, "", "", "≤ " + number(most) + " " + unit, max(measured) <= most);
    }

    static void above(String name, String unit, double[] measured, double least) {
        line(name, spread(measured) + " " + unit, "", "", "≥ " + number(least) + " " + unit, min(measured) >= least);
    }

    static void notMeasured(String name, String why) {
        System.out.printf(LINE, name, "", "", "", why, "n/a");
    }

    private static void line(
            String name, String measured, String compared, String ratio, @Nullable String goal, boolean met) {
        System.out.printf(LINE, name, measured, compared, ratio, goal, met ? "ok" : "short");
    }

    static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private static double max(double[] values) {
        return Arrays.stream(values).max().orElseThrow();
    }

    private static double min(double[] values) {
        return Arrays.stream(values).min().orElseThrow();
    }

    private static String spread(double[] values) {
        return values.length == 1
                ? number(values[0])
                : number(median(values)) + " (" + number(min(values)) + "–" + number(max(values)) + ")";
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, value >= 100 ? "%,.0f" : value >= 10 ? "%.1f" : "%.2f", value);
    }
}
