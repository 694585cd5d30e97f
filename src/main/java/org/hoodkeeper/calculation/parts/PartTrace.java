package org.hoodkeeper.calculation.parts;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.kernel.SetId;
import org.jspecify.annotations.Nullable;

/** Which part sat where and when: each stays until the next is fitted in the same place of the same set. */
public record PartTrace(List<Fitting> fittings) {

    public PartTrace {
        fittings = List.copyOf(fittings);
    }

    /** A part was fitted. Of two in one place at one instant the later one of the list stays. */
    public record Change(
            SetId set,
            String place,
            String part,
            @Nullable String lot,
            @Nullable String serial,
            @Nullable LocalDate madeOn,
            Instant at) {}

    private record Place(SetId set, String name) {}

    /** @param changes in any order but that of one instant */
    public static PartTrace of(List<Change> changes) {
        List<Change> sorted = new ArrayList<>(changes);
        sorted.sort(Comparator.comparing(Change::at));
        Map<Place, List<Change>> places = new LinkedHashMap<>();
        for (Change change : sorted) {
            places.computeIfAbsent(new Place(change.set(), change.place()), any -> new ArrayList<>())
                    .add(change);
        }
        List<Fitting> fittings = new ArrayList<>();
        for (List<Change> inOnePlace : places.values()) {
            for (int i = 0; i < inOnePlace.size(); i++) {
                Change one = inOnePlace.get(i);
                Instant until =
                        i + 1 < inOnePlace.size() ? inOnePlace.get(i + 1).at() : null;
                if (until == null || until.isAfter(one.at())) {
                    fittings.add(new Fitting(
                            one.set(),
                            one.place(),
                            one.part(),
                            one.lot(),
                            one.serial(),
                            one.madeOn(),
                            one.at(),
                            until));
                }
            }
        }
        return new PartTrace(fittings);
    }

    /** Set S at instant t: which parts, by place. */
    public List<Fitting> of(SetId set, Instant at) {
        return fittings.stream()
                .filter(fitting -> fitting.set().equals(set) && fitting.isInAt(at))
                .sorted(Comparator.comparing(Fitting::place))
                .toList();
    }

    /** Part P: in which sets, when; by its serial, oldest first. */
    public List<Fitting> ofSerial(String part, String serial) {
        return fittings.stream()
                .filter(fitting -> fitting.part().equals(part) && PrintedMark.same(serial, fitting.serial()))
                .sorted(Comparator.comparing(Fitting::from))
                .toList();
    }

    /** Lot L: where it ever was. */
    public List<Fitting> ofLot(String lot) {
        return fittings.stream()
                .filter(fitting -> PrintedMark.same(lot, fitting.lot()))
                .toList();
    }
}
