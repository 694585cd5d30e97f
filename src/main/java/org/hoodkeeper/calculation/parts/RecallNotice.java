package org.hoodkeeper.calculation.parts;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * What a recall means: a model, or a place or part in it, narrowed by lot, serial or day of manufacture. Every mark that is given
 * must fit; lots and serials are compared as {@link PrintedMark}s. What is not recorded of a part may fit: unknown counts as in.
 *
 * @param model code of the model of set; none for any
 * @param place where the part sits, for instance {@code hose}; none for any
 * @param part code of the part; none for any
 * @param lot none for any
 * @param serials none for any
 * @param madeFrom first and {@code madeUntil} last day of manufacture, both included; none for open
 */
public record RecallNotice(
        @Nullable String model,
        @Nullable String place,
        @Nullable String part,
        @Nullable String lot,
        Set<String> serials,
        @Nullable LocalDate madeFrom,
        @Nullable LocalDate madeUntil) {

    public enum Match {
        OUT,
        /** Nothing on record speaks against it, and something is not on record. Counts as in. */
        UNKNOWN,
        IN;

        public boolean counts() {
            return this != OUT;
        }
    }

    /** @throws Refused {@code recall.lot.missing} when it names nothing, {@code recall.madeUntil.order} */
    public RecallNotice {
        serials = Set.copyOf(serials);
        if (model == null && place == null && part == null && lot == null && serials.isEmpty() && madeFrom == null) {
            throw new Refused("recall.lot.missing");
        }
        if (madeFrom != null && madeUntil != null && madeUntil.isBefore(madeFrom)) {
            throw new Refused("recall.madeUntil.order", madeFrom, madeUntil);
        }
    }

    /** Means the whole set, not a part of it. */
    public boolean isOfModel() {
        return place == null && part == null && lot == null;
    }

    /** Whether a fitted part is meant. @param setModel code of the model of the set it is in */
    public Match matches(String setModel, Fitting fitting) {
        if (model != null && !model.equals(setModel)
                || place != null && !place.equals(fitting.place())
                || part != null && !part.equals(fitting.part())) {
            return Match.OUT;
        }
        List<Match> marks = new ArrayList<>();
        if (lot != null) {
            marks.add(fitting.lot() == null ? Match.UNKNOWN : in(PrintedMark.same(lot, fitting.lot())));
        }
        if (!serials.isEmpty()) {
            marks.add(fitting.serial() == null ? Match.UNKNOWN : in(names(fitting.serial())));
        }
        marks.add(made(fitting.madeOn()));
        return worst(marks);
    }

    /** Whether a whole set is meant. @param serial of the set; {@code madeOn} its day of manufacture, where known */
    public Match matches(String setModel, @Nullable String serial, @Nullable LocalDate madeOn) {
        if (!isOfModel() || model != null && !model.equals(setModel)) {
            return Match.OUT;
        }
        List<Match> marks = new ArrayList<>();
        if (!serials.isEmpty()) {
            marks.add(serial == null ? Match.UNKNOWN : in(names(serial)));
        }
        marks.add(made(madeOn));
        return worst(marks);
    }

    /** Whether a place of a set of which no part was ever recorded is meant: as delivered, with no lot on record. */
    public Match matchesUnrecorded(String setModel, String atPlace, Set<String> approvedParts) {
        if (model != null && !model.equals(setModel)
                || place != null && !place.equals(atPlace)
                || part != null && !approvedParts.contains(part)
                || isOfModel()) {
            return Match.OUT;
        }
        boolean told = lot == null && serials.isEmpty() && madeFrom == null && madeUntil == null;
        return told && part == null ? Match.IN : Match.UNKNOWN;
    }

    private boolean names(String serial) {
        return serials.stream().anyMatch(one -> PrintedMark.same(one, serial));
    }

    private Match made(@Nullable LocalDate madeOn) {
        if (madeFrom == null && madeUntil == null) {
            return Match.IN;
        }
        if (madeOn == null) {
            return Match.UNKNOWN;
        }
        return in(
                (madeFrom == null || !madeOn.isBefore(madeFrom)) && (madeUntil == null || !madeOn.isAfter(madeUntil)));
    }

    private static Match in(boolean fits) {
        return fits ? Match.IN : Match.OUT;
    }

    private static Match worst(List<Match> marks) {
        return marks.stream().min(Match::compareTo).orElse(Match.IN);
    }
}
