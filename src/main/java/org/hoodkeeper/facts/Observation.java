package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/** What somebody saw on a worker, at the seal or on the round. */
public record Observation(Seen seen, @Nullable String note) implements Fact {

    public enum Seen {
        /** Nothing between skin and seal. */
        CLEAR_AT_SEAL,
        /** Stubble, beard, jewellery or cloth where the seal lies. */
        HAIR_AT_SEAL,
        /** Weight, teeth, scar, surgery: earlier fit tests no longer count. */
        FACE_CHANGED,
        WORN_RIGHT,
        LIFTED_IN_AREA,
        NOT_WORN
    }
}
