package org.hoodkeeper.ledger;

import java.time.Instant;
import java.util.UUID;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.RecordId;
import org.jspecify.annotations.Nullable;

/**
 * A record before it is added. The ledger gives it its id and its time of telling; nobody else can.
 *
 * @param corrects the record that this one replaces; it must be the newest of its chain
 * @param sourceId the site's own number of the record, unique per site and kind
 */
public record Draft(
        Fact fact,
        UUID subject,
        @Nullable UUID item,
        @Nullable String scope,
        Instant from,
        @Nullable Instant until,
        @Nullable RecordId corrects,
        @Nullable String because,
        @Nullable String sourceId) {

    public static Draft of(Fact fact, Id subject, Instant from) {
        return new Draft(fact, subject.value(), null, null, from, null, null, null, null);
    }

    public Draft item(@Nullable Id other) {
        return new Draft(
                fact, subject, other == null ? null : other.value(), scope, from, until, corrects, because, sourceId);
    }

    public Draft scope(@Nullable String what) {
        return new Draft(fact, subject, item, what, from, until, corrects, because, sourceId);
    }

    public Draft until(@Nullable Instant end) {
        return new Draft(fact, subject, item, scope, from, end, corrects, because, sourceId);
    }

    public Draft source(@Nullable String id) {
        return new Draft(fact, subject, item, scope, from, until, corrects, because, id);
    }

    /** Replaces an earlier record. @param reason why, in the corrector's words */
    public Draft correcting(RecordId earlier, String reason) {
        return new Draft(fact, subject, item, scope, from, until, earlier, reason, sourceId);
    }
}
