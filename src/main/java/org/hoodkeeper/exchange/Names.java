package org.hoodkeeper.exchange;

import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Supplier;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** What a site calls its people and things, both ways. Read when first asked for, and as it was then. */
final class Names {

    /** What a name can name. */
    enum Sort {
        WORKER,
        SET,
        MODEL,
        TASK,
        INSTRUMENT,
        SUPPLY
    }

    private record Both(Map<String, UUID> ids, Map<UUID, String> names) {}

    private final Function<Sort, Map<String, UUID>> read;
    private final Map<Sort, Both> known = new HashMap<>();

    Names(Function<Sort, Map<String, UUID>> read) {
        this.read = read;
    }

    /** Knows no name at all: enough where only words and figures are read. */
    static Names none() {
        return new Names(sort -> Map.of());
    }

    /** @throws Refused {@code exchange.unknown.<sort>} when the site has nothing of that name */
    UUID id(Sort sort, String name) {
        UUID id = find(sort, name);
        if (id == null) {
            throw new Refused("exchange.unknown." + sort.name(), name);
        }
        return id;
    }

    @Nullable UUID find(Sort sort, String name) {
        return both(sort).ids().get(name);
    }

    /** The name of an id of this site. */
    String name(Sort sort, UUID id) {
        String name = both(sort).names().get(id);
        if (name == null) {
            throw new IllegalStateException("a record names a " + sort + " that the site does not have: " + id);
        }
        return name;
    }

    @Nullable String nameOrNull(Sort sort, UUID id) {
        return both(sort).names().get(id);
    }

    /** The id of a name that the file brings in itself; the same name gives the same id again. */
    UUID idOrNew(Sort sort, String name, Supplier<UUID> make) {
        UUID known = find(sort, name);
        if (known != null) {
            return known;
        }
        UUID made = make.get();
        both(sort).ids().put(name, made);
        return made;
    }

    private Both both(Sort sort) {
        return known.computeIfAbsent(sort, asked -> {
            Map<String, UUID> ids = new HashMap<>(read.apply(asked));
            Map<UUID, String> names = new HashMap<>();
            ids.forEach((name, id) -> names.put(id, name));
            return new Both(ids, names);
        });
    }
}
