package org.hoodkeeper.web.store;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.kernel.Days;
import org.jspecify.annotations.Nullable;

/**
 * The parts of a set as a picture: each place a branch off the set, and on it from when until when which lot was in. Coordinates
 * in units of the view box, 0 at the top left.
 *
 * @param title the finding, in words
 * @param begin and {@code end}: the days at both ends of the time line
 */
public record PartPicture(
        String title, String label, List<Branch> branches, LocalDate begin, LocalDate end, double height) {

    static final double WIDTH = 536;
    static final double TRUNK = 12;
    static final double LEFT = 174;
    static final double RIGHT = 396;

    private static final double TOP = 44;
    private static final double ROW = 34;

    /** About as wide as a letter is. */
    private static final double LETTER = 7;

    private static final double SHORTEST = 3;

    /** @param now what is in at the end of the line; @param bars oldest first */
    public record Branch(String place, double y, String now, List<Bar> bars) {}

    /** @param text none where it does not fit: the table beside it has it; @param in still there at the end of the line */
    public record Bar(double x, double width, @Nullable String text, boolean in) {}

    /**
     * @param places every place of the set, also such of which nothing is on record
     * @param fittings those that had begun by {@code end}
     * @param unknown words for a lot, or a part, that is not on record
     * @param name words for a place
     */
    static PartPicture of(
            String title,
            String label,
            List<String> places,
            List<Fitting> fittings,
            Instant end,
            ZoneId zone,
            String unknown,
            UnaryOperator<String> name) {
        Instant begin =
                fittings.stream().map(Fitting::from).min(Instant::compareTo).orElse(end);
        Map<String, List<Fitting>> byPlace = new TreeMap<>();
        places.forEach(place -> byPlace.put(place, new ArrayList<>()));
        fittings.forEach(fitting -> byPlace.computeIfAbsent(fitting.place(), any -> new ArrayList<>())
                .add(fitting));
        Scale scale = new Scale(begin, end);
        List<Branch> branches = new ArrayList<>();
        double y = TOP;
        for (Map.Entry<String, List<Fitting>> place : byPlace.entrySet()) {
            branches.add(branch(name.apply(place.getKey()), place.getValue(), y, scale, unknown));
            y += ROW;
        }
        return new PartPicture(title, label, branches, Days.of(begin, zone), Days.of(end, zone), y + 14);
    }

    private static Branch branch(String place, List<Fitting> fittings, double y, Scale scale, String unknown) {
        List<Bar> bars = new ArrayList<>();
        String now = unknown;
        for (Fitting fitting : fittings) {
            boolean in = fitting.isInAt(scale.end());
            String lot = fitting.lot() == null ? unknown : fitting.lot();
            Instant until = fitting.until();
            double x = scale.at(fitting.from());
            double right = in || until == null ? RIGHT : scale.at(until);
            double width = Math.max(SHORTEST, right - x);
            bars.add(new Bar(x, width, in || lot.length() * LETTER > width ? null : lot, in));
            now = in ? lot : now;
        }
        return new Branch(place, y, now, bars);
    }

    private record Scale(Instant begin, Instant end) {

        double at(Instant instant) {
            double all = Duration.between(begin, end).toMillis();
            double part = Duration.between(begin, instant).toMillis();
            double x = all <= 0 ? LEFT : LEFT + (RIGHT - LEFT) * Math.min(1, part / all);
            return Math.round(10 * x) / 10.0;
        }
    }

    public double width() {
        return WIDTH;
    }

    public double left() {
        return LEFT;
    }

    public double right() {
        return RIGHT;
    }

    public double trunk() {
        return TRUNK;
    }
}
