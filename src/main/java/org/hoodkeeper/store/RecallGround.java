package org.hoodkeeper.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.calculation.parts.PartTrace;
import org.hoodkeeper.calculation.parts.RecallNotice;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.jspecify.annotations.Nullable;

/**
 * Sets with what was ever in them, and which of it a recall means. A place of which nothing is on record before a first part was
 * fitted held a part as delivered: it has no marks, and may be meant.
 *
 * @param sets what each set is now; @param received since when each is on record
 */
record RecallGround(
        Map<SetId, SetData> sets, Map<SetId, Instant> received, Map<ModelId, ModelData> models, PartTrace trace) {

    /** Stands for the part that came with the set, or for the whole set. */
    static final String AS_DELIVERED = "";

    /** What a recall means of a set. @param fitting the part and its time; the part is empty where it came with the set */
    record Meant(Fitting fitting, RecallNotice.Match match) {

        boolean isIn() {
            return fitting.until() == null;
        }

        boolean isInAt(Instant at) {
            return fitting.isInAt(at);
        }
    }

    /** By set, oldest first; also what is out by now. Sets of which nothing is meant are left out. */
    Map<SetId, List<Meant>> meant(RecallNotice notice) {
        Map<SetId, List<Fitting>> fitted = new HashMap<>();
        trace.fittings()
                .forEach(fitting -> fitted.computeIfAbsent(fitting.set(), any -> new ArrayList<>())
                        .add(fitting));
        Map<SetId, List<Meant>> meant = new HashMap<>();
        sets.forEach((set, data) -> {
            List<Meant> all = meant(notice, set, data, fitted.getOrDefault(set, List.of()));
            if (!all.isEmpty()) {
                meant.put(set, all);
            }
        });
        return meant;
    }

    private List<Meant> meant(RecallNotice notice, SetId set, SetData data, List<Fitting> fittings) {
        String model = data.model().toString();
        Instant since = received.getOrDefault(set, Instant.EPOCH);
        List<Meant> meant = new ArrayList<>();
        add(meant, delivered(set, "", since, null), notice.matches(model, data.serial(), null));
        fittings.forEach(fitting -> add(meant, fitting, notice.matches(model, fitting)));
        for (String place : places(notice, models.get(data.model()))) {
            Instant first = fittings.stream()
                    .filter(fitting -> fitting.place().equals(place))
                    .map(Fitting::from)
                    .min(Comparator.naturalOrder())
                    .orElse(null);
            if (first == null || first.isAfter(since)) {
                add(
                        meant,
                        delivered(set, place, since, first),
                        notice.matchesUnrecorded(model, place, parts(notice, models.get(data.model()), place)));
            }
        }
        meant.sort(Comparator.comparing(one -> one.fitting().from()));
        return meant;
    }

    private static void add(List<Meant> meant, Fitting fitting, RecallNotice.Match match) {
        if (match.counts()) {
            meant.add(new Meant(fitting, match));
        }
    }

    private static Fitting delivered(SetId set, String place, Instant from, @Nullable Instant until) {
        return new Fitting(set, place, AS_DELIVERED, null, null, null, from, until);
    }

    /** Places that the set has by its model, or by what every set of that type has. */
    private static Set<String> places(RecallNotice notice, @Nullable ModelData model) {
        if (model == null) {
            // nothing is known of the set's make: it may have the place
            return notice.place() == null ? Set.of() : Set.of(notice.place());
        }
        return PartClass.places(model);
    }

    /** Parts that may have come in that place; where the maker's list does not name the place, the recalled one may. */
    private static Set<String> parts(RecallNotice notice, @Nullable ModelData model, String place) {
        if (model != null) {
            for (ModelData.Slot slot : model.slots()) {
                if (slot.name().equals(place)) {
                    return slot.parts();
                }
            }
        }
        // of a place that is not named either, the notice says itself whether it is meant
        return notice.part() == null || notice.place() == null ? Set.of() : Set.of(notice.part());
    }
}
