package org.hoodkeeper.web.hygienist;

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
        @Nullable Line line) {

    static final double WIDTH = 480;
    static final double HEIGHT = 346;
    static final double LEFT = 52;
    static final double RIGHT = 312;
    static final double TOP = 32;
    static final double BOTTOM = 300;

    public record Tick(double at, String text) {}

    /** A line across the picture at one value. @param textAt where its label stands, moved apart from others */
    public record Level(double at, double textAt, String text, Weight weight) {}

    /** How much a level weighs. */
    public enum Weight {
        LIMIT,
        FACTOR,
        DECIDES
    }

    /** @param detected drawn full; hollow where it is a detection limit */
    public record Mark(double x, double y, boolean detected) {}

    public record Line(double x1, double y1, double x2, double y2) {}

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
