package org.hoodkeeper.store;

import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.calculation.parts.FailureMode;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.facts.PreUseCheck.Item;
import org.jspecify.annotations.Nullable;

/**
 * What was wrong.
 *
 * @param item what a wearer would have looked at; none where the whole set is meant, or no item of theirs shows it
 * @param place where the part sits, by the model's own name; none where a wearer's check found it, or the whole is meant
 */
public record Fault(
        FailureMode mode, @Nullable Item item, @Nullable String place) {

    static Fault of(FailureMode mode) {
        return new Fault(mode, null, null);
    }

    /** Found by the wearer. */
    static Fault of(Item item) {
        return switch (item) {
            case FLOW -> new Fault(FailureMode.LOW_FLOW, item, null);
            case BATTERY -> new Fault(FailureMode.BATTERY, item, null);
            default -> new Fault(FailureMode.DAMAGE, item, null);
        };
    }

    /** Found at a place of the set. */
    static Fault at(@Nullable String place) {
        PartClass part = place == null ? null : PartClass.named(place).orElse(null);
        FailureMode mode = part == PartClass.BATTERY ? FailureMode.BATTERY : FailureMode.DAMAGE;
        return new Fault(mode, part == null ? null : item(part), place);
    }

    /** Which sorts of part may have it; empty where the whole set is meant, or its place is not a usual one. */
    Set<PartClass> parts() {
        return Stream.of(PartClass.values())
                .filter(part -> place == null ? item != null && item == item(part) : part.isNamed(place))
                .collect(Collectors.toSet());
    }

    boolean isOfWhole() {
        return item == null && place == null;
    }

    /** Whether a place of the set may be where it is. */
    boolean isAt(@Nullable String slot) {
        return slot != null
                && (place == null ? parts().stream().anyMatch(part -> part.isNamed(slot)) : place.equals(slot));
    }

    /** Which point of a wearer's check looks at the part: common practice, no source. */
    private static @Nullable Item item(PartClass part) {
        return switch (part) {
            case VISOR, VISOR_LOCK -> Item.VISOR;
            case EDGE_SEAL -> Item.EDGE_SEAL;
            case EXHALATION_VALVE -> Item.EXHALATION_VALVE;
            case HARNESS, HARNESS_SEAL, SWEATBAND -> Item.HARNESS;
            case HOSE, HOSE_GASKET -> Item.HOSE;
            case BLOWER -> Item.BLOWER;
            case FILTER -> Item.FILTER;
            case BATTERY -> Item.BATTERY;
            case COUPLING -> Item.COUPLING;
            case DEFLECTOR -> null;
        };
    }
}
