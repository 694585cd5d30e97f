package org.hoodkeeper.reporting;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.jspecify.annotations.Nullable;

/**
 * Records that a loader fetched, by subject and kind, newest first, each once. A subject's records of a kind that are not there are
 * looked for in what is shared; they come from one of both, never from both together.
 */
final class Records {

    private final @Nullable Records shared;

    private final Map<UUID, Map<Kind, List<Told<?>>>> bySubject = new HashMap<>();
    private final Map<UUID, Map<Kind, List<Told<?>>>> byItem = new HashMap<>();
    private final Set<UUID> seen = new HashSet<>();

    Records() {
        this(null);
    }

    /** @param shared of other things than these; none where there is nothing */
    Records(@Nullable Records shared) {
        this.shared = shared;
    }

    /** Adds a record unless it is there. */
    void add(Kind kind, Told<?> told) {
        if (seen.add(told.id().value())) {
            put(bySubject, told.subject(), kind, told);
            if (told.item() != null) {
                put(byItem, told.item(), kind, told);
            }
        }
    }

    private static void put(Map<UUID, Map<Kind, List<Told<?>>>> index, UUID key, Kind kind, Told<?> told) {
        index.computeIfAbsent(key, any -> new EnumMap<>(Kind.class))
                .computeIfAbsent(kind, any -> new ArrayList<>())
                .add(told);
    }

    /** Newest first: by when it was true, then by when it was told, then by id. */
    void sort() {
        bySubject.values().forEach(kinds -> kinds.values().forEach(Records::newestFirst));
        byItem.values().forEach(kinds -> kinds.values().forEach(Records::newestFirst));
    }

    private static void newestFirst(List<Told<?>> records) {
        records.sort((one, other) -> {
            int order = other.from().compareTo(one.from());
            if (order == 0) {
                order = other.recordedAt().compareTo(one.recordedAt());
            }
            return order != 0 ? order : other.id().value().compareTo(one.id().value());
        });
    }

    <F extends Fact> List<Told<F>> about(UUID subject, Kind kind) {
        List<Told<?>> records = of(bySubject, subject, kind);
        return records == null && shared != null ? shared.about(subject, kind) : typed(records);
    }

    <F extends Fact> List<Told<F>> naming(UUID item, Kind kind) {
        List<Told<?>> records = of(byItem, item, kind);
        return records == null && shared != null ? shared.naming(item, kind) : typed(records);
    }

    private static @Nullable List<Told<?>> of(Map<UUID, Map<Kind, List<Told<?>>>> index, UUID key, Kind kind) {
        Map<Kind, List<Told<?>>> kinds = index.get(key);
        return kinds == null ? null : kinds.get(kind);
    }

    /** One type of list for all, since the engine walks them all the time. */
    @SuppressWarnings("unchecked")
    private static <F extends Fact> List<Told<F>> typed(@Nullable List<Told<?>> records) {
        // each kind has one type of fact: Kind.type()
        return records == null ? new ArrayList<>(0) : (List<Told<F>>) (List<?>) records;
    }

    /** The records of a subject by scope, each list newest first. */
    <F extends Fact> Map<String, List<Told<F>>> byScope(UUID subject, Kind kind) {
        Map<String, List<Told<F>>> scopes = new LinkedHashMap<>();
        for (Told<F> told : this.<F>about(subject, kind)) {
            if (told.scope() != null) {
                scopes.computeIfAbsent(told.scope(), any -> new ArrayList<>()).add(told);
            }
        }
        return scopes;
    }
}
