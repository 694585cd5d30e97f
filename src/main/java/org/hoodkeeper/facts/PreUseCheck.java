package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.kernel.InstrumentId;
import org.jspecify.annotations.Nullable;

/**
 * The wearer, the item, looked the set over and donned it.
 *
 * @param items each item of the list and how it came out; an item that the set does not have is left out
 * @param reading what the flow indicator showed, L/min; none for a device without flow
 * @param indicator which indicator
 * @param placement the hood sits right all round, its elastic recovers, its size is right; or the mask's seal check held
 * @param chargePercent charge of the battery
 */
public record PreUseCheck(
        Map<Item, Outcome> items,
        @Nullable BigDecimal reading,
        @Nullable InstrumentId indicator,
        @Nullable Outcome placement,
        @Nullable Integer chargePercent,
        @Nullable String note)
        implements Fact {

    public enum Item {
        RIGHT_SET,
        VISOR,
        EDGE_SEAL,
        EXHALATION_VALVE,
        HARNESS,
        HOSE,
        BLOWER,
        FILTER,
        BATTERY,
        FLOW,
        ALARMS,
        COUPLING,
        /** Clean-shaven where the seal or the edge lies on skin. */
        SKIN_AT_SEAL
    }

    public PreUseCheck {
        items = Ordered.copyByConstant(items);
    }

    /** Failed on the set, not on this wearer's face or on having picked up another's set. */
    public boolean failedOnSet() {
        if (!items.containsValue(Outcome.FAIL)) {
            return false;
        }
        return items.entrySet().stream()
                .anyMatch(item -> item.getValue() == Outcome.FAIL
                        && item.getKey() != Item.SKIN_AT_SEAL
                        && item.getKey() != Item.RIGHT_SET);
    }

    /**
     * What the wearer must have looked at on a device of this type, however the check reached us. The flow and what lies on
     * skin are judged by themselves. Duties of 29 CFR 1910.134(h)(3)(i)(A) and ACoP L5, 178; which item belongs to which type
     * is common practice, no source.
     */
    public static Set<Item> askedOf(InterfaceType type) {
        Set<Item> asked = EnumSet.of(Item.RIGHT_SET, Item.EDGE_SEAL, Item.EXHALATION_VALVE, Item.HARNESS);
        if (type.isHood() || type.isFullFace()) {
            asked.add(Item.VISOR);
        }
        if (type.hasFlow()) {
            asked.add(Item.HOSE);
            asked.add(Item.ALARMS);
        }
        if (type.hasBlower()) {
            asked.add(Item.BLOWER);
            asked.add(Item.BATTERY);
        }
        if (type.filtersRoomAir()) {
            asked.add(Item.FILTER);
        }
        if (type.isAirFed()) {
            asked.add(Item.COUPLING);
        }
        return asked;
    }

    /** Whether nothing was left out that {@link #askedOf} names, nor the charge where a battery drives the air. */
    public boolean isWholeFor(InterfaceType type) {
        return items.keySet().containsAll(askedOf(type)) && (chargePercent != null || !type.hasBlower());
    }

    public boolean passed() {
        return passed(false);
    }

    /** @param hairAccepted the site lets hair be where the edge of this hood lies: an honest answer about it fails nothing */
    public boolean passed(boolean hairAccepted) {
        return !items.isEmpty()
                && items.entrySet().stream()
                        .noneMatch(item -> item.getValue() == Outcome.FAIL
                                && !(hairAccepted && item.getKey() == Item.SKIN_AT_SEAL));
    }
}
