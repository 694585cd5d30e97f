package org.hoodkeeper.facts;

import java.time.Instant;
import java.util.UUID;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;

/**
 * One record of the ledger: a fact, whom it is about, when it was true and when we were told.
 *
 * @param subject whom or what the record is about; which kind of id it is follows from {@link Kind#subject()}
 * @param item the second party, where the kind has one: the set that was worn, the worker it was issued to
 * @param scope what exactly it covers, where the kind has a scope: the model trained on, the variant fit tested
 * @param from when it became true; instants, included
 * @param until when it ceased to be true; excluded; none where the fact is a moment or has no end yet
 * @param recordedAt when the site was told, by the database's clock
 * @param corrects the record that this one replaces
 */
public record Told<F extends Fact>(
        RecordId id,
        UUID subject,
        @Nullable UUID item,
        @Nullable String scope,
        Instant from,
        @Nullable Instant until,
        Instant recordedAt,
        @Nullable RecordId corrects,
        F fact) {

    /** True at that instant: begun, and not ended. A moment counts as begun for ever. */
    public boolean isTrueAt(Instant instant) {
        return !instant.isBefore(from) && (until == null || instant.isBefore(until));
    }

    public boolean overlaps(Interval interval) {
        return from.isBefore(interval.until())
                && (until == null || interval.from().isBefore(until));
    }

    /** The second party as a worker: for custody and pre-use checks. */
    public @Nullable WorkerId worker() {
        return item == null ? null : new WorkerId(item);
    }

    /** The second party as a set: for wears. */
    public @Nullable SetId set() {
        return item == null ? null : new SetId(item);
    }
}
