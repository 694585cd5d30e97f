package org.hoodkeeper.facts;

import java.util.Collection;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** Copies in a fixed order, so that the same fact always reads the same, letter for letter. */
final class Ordered {

    private Ordered() {}

    static <T extends Comparable<T>> Set<T> copy(@Nullable Collection<T> values) {
        return values == null || values.isEmpty() ? Set.of() : Collections.unmodifiableSet(new TreeSet<>(values));
    }

    static <K extends Comparable<K>, V> Map<K, V> copy(@Nullable Map<K, V> values) {
        return values == null || values.isEmpty() ? Map.of() : Collections.unmodifiableMap(new TreeMap<>(values));
    }

    static <K extends Enum<K>, V> Map<K, V> copyByConstant(@Nullable Map<K, V> values) {
        return values == null || values.isEmpty() ? Map.of() : Collections.unmodifiableMap(new EnumMap<>(values));
    }
}
