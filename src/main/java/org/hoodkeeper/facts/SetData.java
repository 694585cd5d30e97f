package org.hoodkeeper.facts;

import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SupplyId;
import org.jspecify.annotations.Nullable;

/**
 * What a set is: its model, size and seal revision, and for an air-fed one the supply it hangs on.
 *
 * @param emergency kept for emergencies
 * @param store where it belongs
 */
public record SetData(
        ModelId model,
        String size,
        String sealRevision,
        @Nullable SupplyId supply,
        boolean emergency,
        @Nullable String store,
        @Nullable String serial)
        implements Fact {}
