package org.hoodkeeper.ledger;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The columns of a record that its hash covers: the very columns that every loader reads. */
record Row(
        UUID site,
        UUID id,
        int kind,
        UUID subject,
        @Nullable UUID item,
        @Nullable String scope,
        Instant from,
        @Nullable Instant until,
        Instant recordedAt,
        UUID entry,
        @Nullable UUID corrects,
        boolean withdrawn,
        @Nullable String sourceId,
        String body,
        byte @Nullable [] privateDigest) {

    byte[] hash() {
        return new Digest("record 1")
                .field("site", site)
                .field("id", id)
                .field("kind", kind)
                .field("subject", subject)
                .field("item", item)
                .field("scope", scope)
                .field("from", from)
                .field("until", until)
                .field("recordedAt", recordedAt)
                .field("entry", entry)
                .field("corrects", corrects)
                .field("withdrawn", withdrawn)
                .field("source", sourceId)
                .field("body", body)
                .bytes("private", privateDigest)
                .value();
    }
}
