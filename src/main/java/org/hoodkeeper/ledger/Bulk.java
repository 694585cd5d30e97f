package org.hoodkeeper.ledger;

import java.security.SecureRandom;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.hoodkeeper.database.BulkInsert;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;

/**
 * Any number of records as one entry. They are hashed one after the other and go to the database in portions, so that memory
 * does not grow with their number. Nothing counts before {@link #close}, which writes the entry over their hashes.
 */
public final class Bulk {

    private static final SecureRandom RANDOM = new SecureRandom();

    private final JdbcTemplate jdbc;
    private final Author author;
    private final UUID entry = Ids.next();
    private final Instant recordedAt;
    private final Instant writtenAt;
    private final BulkInsert records;
    private final BulkInsert hidden;
    private final Digest digest = Ledger.recordsDigest();
    private int count;
    private @Nullable UUID last;

    Bulk(JdbcTemplate jdbc, Author author, Instant recordedAt, Instant writtenAt) {
        this.jdbc = jdbc;
        this.author = author;
        this.recordedAt = recordedAt;
        this.writtenAt = writtenAt;
        this.records = new BulkInsert(jdbc, "ledger_record", Ledger.RECORD_COLUMNS);
        this.hidden = new BulkInsert(jdbc, "ledger_private", List.of("site_id", "record_id", "salt", "content"));
    }

    /**
     * A record whose fact is in writing already, as {@link FactJson} spells it.
     *
     * @param body as {@link FactJson#open}
     * @param hidden as {@link FactJson#hidden}
     */
    public record Written(
            Kind kind,
            UUID subject,
            @Nullable UUID item,
            @Nullable String scope,
            Instant from,
            @Nullable Instant until,
            @Nullable String sourceId,
            String body,
            @Nullable String hidden) {

        public static Written of(Draft draft) {
            return new Written(
                    Kind.of(draft.fact()),
                    draft.subject(),
                    draft.item(),
                    draft.scope(),
                    draft.from(),
                    draft.until(),
                    draft.sourceId(),
                    FactJson.open(draft.fact()),
                    FactJson.hidden(draft.fact()));
        }
    }

    public Instant recordedAt() {
        return recordedAt;
    }

    /** How many so far. */
    public int count() {
        return count;
    }

    /**
     * @param id above every id before it: the entry's digest runs over the records in the order of their ids
     * @throws Refused {@code ledger.future}, {@code ledger.order}
     * @throws org.springframework.dao.DuplicateKeyException now or in {@link #close}, when another transaction has recorded one
     *     of these source ids meanwhile: the whole transaction is to be tried again
     */
    public void add(RecordId id, Written record) {
        if (last != null && last.toString().compareTo(id.value().toString()) >= 0) {
            throw new IllegalArgumentException("records must come in the order of their ids");
        }
        Ledger.refuseWhatCannotBe(record.kind(), record.from(), record.until(), recordedAt);
        last = id.value();
        UUID site = author.site().value();
        byte[] privateDigest = null;
        if (record.hidden() != null) {
            byte[] salt = new byte[16];
            RANDOM.nextBytes(salt);
            privateDigest = Ledger.Hidden.digest(salt, record.hidden());
            hidden.add(site, id.value(), salt, record.hidden());
        }
        Row row = new Row(
                site,
                id.value(),
                record.kind().number(),
                record.subject(),
                record.item(),
                record.scope(),
                record.from().truncatedTo(ChronoUnit.MICROS),
                record.until() == null ? null : record.until().truncatedTo(ChronoUnit.MICROS),
                recordedAt,
                entry,
                null,
                false,
                record.sourceId(),
                record.body(),
                privateDigest);
        byte[] hash = row.hash();
        digest.bytes("record", hash);
        records.add(
                row.site(),
                row.id(),
                row.kind(),
                row.subject(),
                row.item(),
                row.scope(),
                row.from(),
                row.until(),
                row.recordedAt(),
                row.entry(),
                row.corrects(),
                row.withdrawn(),
                row.sourceId(),
                row.body(),
                row.privateDigest(),
                hash);
        count++;
    }

    /** Sends what is held back, so that queries of this transaction see it. Private parts follow: they name their records. */
    public void flush() {
        records.flush();
        hidden.flush();
    }

    /** Writes the entry. With no record there is none. */
    public void close() {
        flush();
        if (count > 0) {
            byte[] recordsDigest = digest.value();
            String via = author.via().name().toLowerCase(Locale.ROOT);
            byte[] hash = Ledger.entryHash(
                    author.site().value(), entry, recordedAt, author.account().value(), via, count, recordsDigest);
            jdbc.update(
                    Ledger.INSERT_ENTRY,
                    author.site().value(),
                    entry,
                    Ledger.utc(recordedAt),
                    Ledger.utc(writtenAt),
                    author.account().value(),
                    via,
                    count,
                    recordsDigest,
                    hash);
        }
    }
}
