package org.hoodkeeper.web.worker;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.PreUseCheck.Item;
import org.hoodkeeper.kernel.InstrumentId;
import org.jspecify.annotations.Nullable;

/**
 * The check before use as it was answered; what the set does not have is not asked.
 *
 * @param indicator code of the flow indicator; {@link #OWN} for the one that came with the set
 * @param reading what it showed, L/min
 * @param chargePercent of the battery, percent
 */
public record PreUseCheckForm(
        @NotNull @Nullable Outcome rightSet,
        @Nullable Outcome visor,
        @NotNull @Nullable Outcome edgeSeal,
        @Nullable Outcome exhalationValve,
        @NotNull @Nullable Outcome harness,
        @Nullable Outcome hose,
        @Nullable Outcome blower,
        @Nullable Outcome filter,
        @Nullable Outcome battery,
        @Nullable Outcome coupling,
        @Nullable Integer chargePercent,
        @Nullable String indicator,
        @Nullable BigDecimal reading,
        @Nullable Outcome alarms,
        @Nullable Outcome skin,
        @NotNull @Nullable Outcome placement,
        @Size(max = 2000) @Nullable String note) {

    /** No instrument's code begins like this. */
    static final String OWN = "-";

    static PreUseCheckForm empty() {
        return new PreUseCheckForm(
                null, null, null, null, null, null, null, null, null, null, null, null, null, null, null, null, null);
    }

    /**
     * @param measuredWith the indicator; none for the one that came with the set
     * @param required the lowest reading that passes, L/min; none for a device without a flow
     */
    PreUseCheck check(@Nullable InstrumentId measuredWith, @Nullable BigDecimal required) {
        Map<Item, Outcome> items = new EnumMap<>(Item.class);
        put(items, Item.RIGHT_SET, rightSet);
        put(items, Item.VISOR, visor);
        put(items, Item.EDGE_SEAL, edgeSeal);
        put(items, Item.EXHALATION_VALVE, exhalationValve);
        put(items, Item.HARNESS, harness);
        put(items, Item.HOSE, hose);
        put(items, Item.BLOWER, blower);
        put(items, Item.FILTER, filter);
        put(items, Item.BATTERY, battery);
        put(items, Item.COUPLING, coupling);
        put(items, Item.ALARMS, alarms);
        put(items, Item.SKIN_AT_SEAL, skin);
        if (required != null && reading != null) {
            put(items, Item.FLOW, reading.compareTo(required) >= 0 ? Outcome.PASS : Outcome.FAIL);
        }
        return new PreUseCheck(items, reading, measuredWith, placement, chargePercent, note);
    }

    private static void put(Map<Item, Outcome> items, Item item, @Nullable Outcome outcome) {
        if (outcome != null) {
            items.put(item, outcome);
        }
    }
}
