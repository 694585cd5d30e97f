package org.hoodkeeper.web;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A picture that the server draws: every coordinate is worked out here, in units of the view box, 0 at the top left.
 *
 * @param title the finding, in words
 * @param across label of the axis across
 * @param up label of the axis up, with its unit
 */
public record Plot(
        String title,
        String across,
        String up,
        List<Tick> acrossTicks,
        List<Tick> upTicks,
        List<Level> levels,
        List<Mark> marks,
        List<Curve> curves) {

    public static final double WIDTH = 480;
    public static final double HEIGHT = 346;
    public static final double LEFT = 52;
    public static final double RIGHT = 312;
    public static final double TOP = 32;
    public static final double BOTTOM = 300;

    private static final double LABEL_HEIGHT = 15;

    public record Tick(double at, String text) {}

    /** A line across the picture at one value. @param textAt where its label stands, moved apart from others */
    public record Level(double at, double textAt, String text, Weight weight) {

        public Level(double at, String text, Weight weight) {
            this(at, at + 4, text, weight);
        }
    }

    /** How much a level weighs. */
    public enum Weight {
        LIMIT,
        FACTOR,
        /** What was measured comes to, where something else decides. */
        SAYS,
        DECIDES
    }

    public record Mark(double x, double y, Sort sort) {

        /** What a mark stands for; each has its own shape. */
        public enum Sort {
            SEEN,
            /** Hollow: below what could be detected, or still good. */
            BELOW,
            /** A triangle that points down: measured, and not enough. */
            FAILED,
            /** A cross: does not count. */
            REFUSED
        }
    }

    /** @param path of the SVG, made by {@link #path}; {@code text} beside its end; none for a curve without a label */
    public record Curve(String path, Sort sort, @Nullable String text, double textX, double textY) {

        public Curve(String path, Sort sort) {
            this(path, sort, null, 0, 0);
        }

        public enum Sort {
            FIT,
            /** Dashed. */
            BOUND,
            /** Dotted: something happened then. */
            EVENT
        }
    }

    /** Levels with their labels pushed apart, from the top down. */
    public static List<Level> apart(List<Level> levels) {
        List<Level> apart = new ArrayList<>();
        double free = TOP;
        for (Level level :
                levels.stream().sorted(Comparator.comparingDouble(Level::at)).toList()) {
            double text = Math.max(level.at() + 4, free);
            apart.add(new Level(level.at(), text, level.text(), level.weight()));
            free = text + LABEL_HEIGHT;
        }
        return apart;
    }

    /** A line through points. @param xys x and y in turn */
    public static String path(double... xys) {
        StringBuilder path = new StringBuilder();
        for (int i = 0; i + 1 < xys.length; i += 2) {
            path.append(i == 0 ? 'M' : 'L').append(xys[i]).append(' ').append(xys[i + 1]);
        }
        return path.toString();
    }

    public double width() {
        return WIDTH;
    }

    public double height() {
        return HEIGHT;
    }

    public double left() {
        return LEFT;
    }

    public double right() {
        return RIGHT;
    }

    public double top() {
        return TOP;
    }

    public double bottom() {
        return BOTTOM;
    }
}
