package org.hoodkeeper.web.worker;

import jakarta.validation.constraints.NotNull;
import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.PreUseCheck.Item;
import org.jspecify.annotations.Nullable;

/**
 * The check before use as it was answered; what the set does not have is not asked.
 *
 * @param reading what the flow indicator showed, L/min
 * @param charge of the battery, percent
 */
record PreUseCheckForm(
        @NotNull @Nullable Outcome rightSet,
        @Nullable Outcome visor,
        @NotNull @Nullable Outcome edgeSeal,
        @Nullable Outcome exhalationValve,
        @NotNull @Nullable Outcome harness,
        @Nullable Outcome hose,
        @Nullable Outcome blower,
        @Nullable Outcome filter,
        @Nullable Outcome coupling,
        @Nullable Outcome alarms,
        @Nullable BigDecimal reading,
        @Nullable Integer charge,
        @Nullable Outcome skin,
        @NotNull @Nullable Outcome placement,
        @Nullable String note) {

    static PreUseCheckForm empty() {
        return new PreUseCheckForm(
                null, null, null, null, null, null, null, null, null, null, null, null, null, null, null);
    }

    /** @param minimum the flow that must be shown, L/min; none for a device without a flow */
    PreUseCheck check(@Nullable BigDecimal minimum) {
        Map<Item, Outcome> items = new EnumMap<>(Item.class);
        put(items, Item.RIGHT_SET, rightSet);
        put(items, Item.VISOR, visor);
        put(items, Item.EDGE_SEAL, edgeSeal);
        put(items, Item.EXHALATION_VALVE, exhalationValve);
        put(items, Item.HARNESS, harness);
        put(items, Item.HOSE, hose);
        put(items, Item.BLOWER, blower);
        put(items, Item.FILTER, filter);
        put(items, Item.COUPLING, coupling);
        put(items, Item.ALARMS, alarms);
        put(items, Item.SKIN_AT_SEAL, skin);
        if (minimum != null && reading != null) {
            put(items, Item.FLOW, reading.compareTo(minimum) >= 0 ? Outcome.PASS : Outcome.FAIL);
        }
        return new PreUseCheck(items, reading, null, placement, charge, note);
    }

    private static void put(Map<Item, Outcome> items, Item item, @Nullable Outcome outcome) {
        if (outcome != null) {
            items.put(item, outcome);
        }
    }
}
