package org.hoodkeeper.facts;

import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;

/** The sorts of part that a set can have, in the order in which they are looked over. */
public enum PartClass {
    VISOR("visor"),
    VISOR_LOCK("visor-lock"),
    EDGE_SEAL("edge-seal"),
    EXHALATION_VALVE("exhalation-valve"),
    HARNESS("harness"),
    HARNESS_SEAL("harness-seal"),
    SWEATBAND("sweatband"),
    DEFLECTOR("deflector"),
    HOSE("hose"),
    HOSE_GASKET("hose-gasket"),
    BLOWER("blower"),
    FILTER("filter"),
    BATTERY("battery"),
    COUPLING("coupling");

    /** Those that a trained person changes in the store; the rest is changed by the maker or swapped whole. */
    public static final Set<PartClass> CHANGED_HERE =
            Set.copyOf(EnumSet.of(VISOR, EXHALATION_VALVE, EDGE_SEAL, HARNESS_SEAL, SWEATBAND, HARNESS, HOSE_GASKET));

    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^A-Za-z0-9]+");

    private static final Map<String, PartClass> BY_SLOT = new TreeMap<>(String.CASE_INSENSITIVE_ORDER);

    static {
        for (PartClass part : values()) {
            BY_SLOT.put(part.slot, part);
        }
    }

    private final String slot;

    PartClass(String slot) {
        this.slot = slot;
    }

    /** What every set of that type has, and what the model names a place for. */
    public static Set<PartClass> of(ModelData model) {
        InterfaceType type = model.type();
        EnumSet<PartClass> has = EnumSet.of(EDGE_SEAL, EXHALATION_VALVE, HARNESS);
        if (type.isHood() || type.isFullFace()) {
            has.addAll(EnumSet.of(VISOR, VISOR_LOCK));
        }
        if (type.isHood()) {
            has.add(SWEATBAND);
        }
        if (type.hasFlow()) {
            has.addAll(EnumSet.of(HOSE, HOSE_GASKET));
        }
        if (type.hasBlower()) {
            has.addAll(EnumSet.of(BLOWER, BATTERY));
        }
        if (type.filtersRoomAir()) {
            has.add(FILTER);
        }
        if (type.isAirFed()) {
            has.add(COUPLING);
        }
        model.slots().forEach(slot -> named(slot.name()).ifPresent(has::add));
        return has;
    }

    /** Every place of a set of that model: by the model's own names, and by the usual ones for what it does not name. */
    public static Set<String> places(ModelData model) {
        Set<String> places = new TreeSet<>();
        model.slots().forEach(slot -> places.add(slot.name()));
        for (PartClass part : of(model)) {
            if (places.stream().noneMatch(part::isNamed)) {
                places.add(part.slot());
            }
        }
        return places;
    }

    /** The sort of part that a model's own name for a place means: {@code Edge seal}, {@code edge-seal}. */
    public static Optional<PartClass> named(String slot) {
        return Optional.ofNullable(
                BY_SLOT.get(BETWEEN_WORDS.matcher(slot.strip()).replaceAll("-")));
    }

    public boolean isNamed(String slot) {
        return named(slot).orElse(null) == this;
    }

    /** As a model's place is named where the model itself names none: {@code edge-seal}. */
    public String slot() {
        return slot;
    }
}
