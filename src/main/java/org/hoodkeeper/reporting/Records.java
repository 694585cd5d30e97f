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
import java.util.function.Function;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;

/** Records that a loader fetched, by subject and kind, newest first, each once. */
final class Records {

    private final Map<UUID, Map<Kind, List<Told<?>>>> bySubject = new HashMap<>();
    private final Map<UUID, Map<Kind, List<Told<?>>>> byItem = new HashMap<>();
    private final Set<UUID> seen = new HashSet<>();

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
        return of(bySubject, subject, kind);
    }

    <F extends Fact> List<Told<F>> naming(UUID item, Kind kind) {
        return of(byItem, item, kind);
    }

    @SuppressWarnings("unchecked")
    private static <F extends Fact> List<Told<F>> of(Map<UUID, Map<Kind, List<Told<?>>>> index, UUID key, Kind kind) {
        List<Told<?>> records = index.getOrDefault(key, Map.of()).getOrDefault(kind, List.of());
        // each kind has one type of fact: Kind.type()
        return (List<Told<F>>) (List<?>) records;
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

    /** Ids that the records of a kind name inside, for what has to be loaded next. */
    <F extends Fact> Set<UUID> named(Kind kind, Function<F, List<UUID>> ids) {
        Set<UUID> found = new HashSet<>();
        for (Map<Kind, List<Told<?>>> kinds : bySubject.values()) {
            for (Told<?> told : kinds.getOrDefault(kind, List.of())) {
                @SuppressWarnings("unchecked")
                F fact = (F) told.fact();
                found.addAll(ids.apply(fact));
            }
        }
        return found;
    }
}
