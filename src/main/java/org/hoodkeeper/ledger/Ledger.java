package org.hoodkeeper.ledger;

import java.security.SecureRandom;
import java.sql.Timestamp;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.IllegalTransactionStateException;
import org.springframework.transaction.support.TransactionSynchronizationManager;

/**
 * The only door to the record: entries are added here and never changed. Takes part in the caller's transaction, so that a
 * record and what follows from it stand or fall together.
 */
@Component
public class Ledger {

    private static final SecureRandom RANDOM = new SecureRandom();

    static final String INSERT_ENTRY = """
            insert into ledger_entry (site_id, id, recorded_at, written_at, account_id, via, records, records_digest, hash)
            values (?, ?, ?, ?, ?, ?, ?, ?, ?)""";
    private static final String INSERT_RECORD = """
            insert into ledger_record (site_id, id, kind, subject, item, scope, true_from, true_until, recorded_at, entry_id,
                                       corrects, withdrawn, source_id, body, private_digest, hash)
            values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?::json, ?, ?)""";
    private static final String INSERT_PRIVATE =
            "insert into ledger_private (site_id, record_id, salt, content) values (?, ?, ?, ?::json)";
    private static final String INSERT_ONE = INSERT_ENTRY + ";\n" + INSERT_RECORD;
    private static final String INSERT_ONE_WITH_PRIVATE = INSERT_ONE + ";\n" + INSERT_PRIVATE;

    static final List<String> RECORD_COLUMNS = List.of(
            "site_id",
            "id",
            "kind",
            "subject",
            "item",
            "scope",
            "true_from",
            "true_until",
            "recorded_at",
            "entry_id",
            "corrects",
            "withdrawn",
            "source_id",
            "body",
            "private_digest",
            "hash");

    private final JdbcTemplate jdbc;

    Ledger(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /** Adds one record. */
    public RecordId append(Author author, Draft draft) {
        return append(author, List.of(draft)).records().get(0);
    }

    /**
     * Adds records as one entry: they were told together.
     *
     * @throws Refused {@code ledger.future} when an event lies ahead, {@code ledger.corrected} when a record to correct is not
     *     the newest of its chain, {@code ledger.becauseMissing} when a correction gives no reason, {@code ledger.erased} when it
     *     is erased in this moment
     */
    public Entry append(Author author, List<Draft> drafts) {
        Times times = now(author.site());
        UUID entry = Ids.next();
        List<Row> rows = new ArrayList<>();
        List<Hidden> hidden = new ArrayList<>();
        for (Draft draft : drafts) {
            refuseWhatCannotBe(draft, times.recordedAt());
            add(author, draft, false, entry, times.recordedAt(), rows, hidden);
        }
        return write(author, entry, times, rows, hidden);
    }

    /**
     * Withdraws a record: it was wrong and nothing takes its place. Withdrawing a correction revives nothing.
     *
     * @throws Refused as {@link #append(Author, List)}
     */
    public Entry withdraw(Author author, Draft withdrawn) {
        if (withdrawn.corrects() == null) {
            throw new IllegalArgumentException("a withdrawal names its record");
        }
        Times times = now(author.site());
        UUID entry = Ids.next();
        List<Row> rows = new ArrayList<>();
        List<Hidden> hidden = new ArrayList<>();
        requireReason(withdrawn);
        add(author, withdrawn, true, entry, times.recordedAt(), rows, hidden);
        return write(author, entry, times, rows, hidden);
    }

    /** Begins an entry of any number of records, for imports. Nothing of it counts before it is closed. */
    public Bulk bulk(Author author) {
        Times times = now(author.site());
        return new Bulk(jdbc, author, times.recordedAt(), times.writtenAt());
    }

    /** Until the transaction ends, nobody else states what holds of this subject from a time on. */
    public void alone(SiteId site, Kind kind, UUID subject) {
        requireTransaction();
        jdbc.query(
                "select pg_advisory_xact_lock(hashtextextended('standing ' || ?, 0))",
                row -> {},
                site + " " + kind.number() + " " + subject);
    }

    private static void refuseWhatCannotBe(Draft draft, Instant recordedAt) {
        if (!isOfRecall(draft)) {
            refuseWhatCannotBe(Kind.of(draft.fact()), draft.from(), draft.until(), recordedAt);
        }
        requireReason(draft);
    }

    private static void requireReason(Draft draft) {
        if (draft.corrects() != null
                && (draft.because() == null || draft.because().isBlank())) {
            throw new Refused("ledger.becauseMissing");
        }
    }

    /** The only event that may lie ahead: a recalled part bars its set from the end of the day by which it is to be out. */
    private static boolean isOfRecall(Draft draft) {
        return draft.fact() instanceof Hold hold && hold.why() == Hold.Why.RECALL && draft.scope() != null;
    }

    static void refuseWhatCannotBe(Kind kind, Instant from, @Nullable Instant until, Instant recordedAt) {
        if (from.isAfter(recordedAt) && !kind.mayBeginLater()) {
            throw new Refused("ledger.future", from);
        }
        if (until != null && until.isAfter(recordedAt) && !kind.mayBeginLater()) {
            throw new Refused("ledger.future", until);
        }
        if (until != null && !until.isAfter(from)) {
            throw new Refused("ledger.order", from, until);
        }
    }

    private static void add(
            Author author,
            Draft draft,
            boolean withdrawn,
            UUID entry,
            Instant recordedAt,
            List<Row> rows,
            List<Hidden> hidden) {
        UUID id = Ids.next();
        byte[] privateDigest = null;
        String content = FactJson.hidden(draft.fact(), draft.because());
        if (content != null) {
            byte[] salt = new byte[16];
            RANDOM.nextBytes(salt);
            privateDigest = Hidden.digest(salt, content);
            hidden.add(new Hidden(id, salt, content));
        }
        rows.add(new Row(
                author.site().value(),
                id,
                Kind.of(draft.fact()).number(),
                draft.subject(),
                draft.item(),
                draft.scope(),
                micros(draft.from()),
                draft.until() == null ? null : micros(draft.until()),
                recordedAt,
                entry,
                draft.corrects() == null ? null : draft.corrects().value(),
                withdrawn,
                draft.sourceId(),
                FactJson.open(draft.fact()),
                privateDigest));
    }

    private Entry write(Author author, UUID entry, Times times, List<Row> rows, List<Hidden> hidden) {
        UUID site = author.site().value();
        List<byte[]> hashes = rows.stream().map(Row::hash).toList();
        Digest digest = recordsDigest();
        hashes.forEach(hash -> digest.bytes("record", hash));
        byte[] recordsDigest = digest.value();
        String via = author.via().name().toLowerCase(Locale.ROOT);
        byte[] hash =
                entryHash(site, entry, times.recordedAt(), author.account().value(), via, rows.size(), recordsDigest);
        Object[] line = {
            site,
            entry,
            utc(times.recordedAt()),
            utc(times.writtenAt()),
            author.account().value(),
            via,
            rows.size(),
            recordsDigest,
            hash
        };
        List<Object[]> records = values(rows, hashes);
        List<Object[]> privates = hidden.stream()
                .map(row -> new Object[] {site, row.record(), row.salt(), row.content()})
                .toList();
        try {
            if (rows.size() == 1) {
                insertOne(line, records.get(0), privates);
            } else {
                jdbc.update(INSERT_ENTRY, line);
                jdbc.batchUpdate(INSERT_RECORD, records);
                jdbc.batchUpdate(INSERT_PRIVATE, privates);
            }
        } catch (DuplicateKeyException twice) {
            throw refusal(twice, rows);
        } catch (DataIntegrityViolationException broken) {
            if (isOfCorrected(broken)) {
                throw new Refused("ledger.erased");
            }
            throw broken;
        }
        return new Entry(
                entry,
                times.recordedAt(),
                rows.stream().map(row -> new RecordId(row.id())).toList());
    }

    /** What most entries are, in one message to the database: each message costs as much as an insert. */
    private void insertOne(Object[] entry, Object[] record, List<Object[]> privates) {
        Stream<Object[]> all = Stream.concat(Stream.of(entry, record), privates.stream());
        jdbc.update(
                privates.isEmpty() ? INSERT_ONE : INSERT_ONE_WITH_PRIVATE,
                all.flatMap(Arrays::stream).toArray());
    }

    /** Over the hashes of an entry's records, in the order of their ids: add each as {@code record}. */
    static Digest recordsDigest() {
        return new Digest("records 1");
    }

    static byte[] entryHash(
            UUID site, UUID entry, Instant recordedAt, UUID account, String via, int records, byte[] recordsDigest) {
        return new Digest("entry 1")
                .field("site", site)
                .field("id", entry)
                .field("recordedAt", recordedAt)
                .field("account", account)
                .field("via", via)
                .field("records", records)
                .bytes("recordsDigest", recordsDigest)
                .value();
    }

    private static List<Object[]> values(List<Row> rows, List<byte[]> hashes) {
        List<Object[]> values = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            values.add(new Object[] {
                row.site(),
                row.id(),
                row.kind(),
                row.subject(),
                row.item(),
                row.scope(),
                utc(row.from()),
                row.until() == null ? null : utc(row.until()),
                utc(row.recordedAt()),
                row.entry(),
                row.corrects(),
                row.withdrawn(),
                row.sourceId(),
                row.body(),
                row.privateDigest(),
                hashes.get(i)
            });
        }
        return values;
    }

    /** Whether a correction and the erasure of what it corrects came in the same moment: whichever commits first stands. */
    static boolean isOfCorrected(DataIntegrityViolationException broken) {
        return String.valueOf(broken.getMessage()).contains("ledger_record_corrects_fk");
    }

    private static Refused refusal(DuplicateKeyException twice, List<Row> rows) {
        String message = String.valueOf(twice.getMessage());
        if (message.contains("ledger_record_corrects_once")) {
            return new Refused("ledger.corrected", first(rows, Row::corrects));
        }
        if (message.contains("ledger_record_source_once")) {
            return new Refused("ledger.sourceTwice", first(rows, Row::sourceId));
        }
        throw twice;
    }

    /** Entries of several corrections, or of several lines of a file, are told by imports alone, which name the line themselves. */
    private static @Nullable Object first(List<Row> rows, Function<Row, @Nullable Object> what) {
        return rows.stream().map(what).filter(Objects::nonNull).findFirst().orElse(null);
    }

    /** Asked here and not by a proxy: this is passed with each record, and a proxy costs a fifth of what we spend on one. */
    private static void requireTransaction() {
        if (!TransactionSynchronizationManager.isActualTransactionActive()) {
            throw new IllegalTransactionStateException("a record stands or falls with what its caller does besides");
        }
    }

    private Times now(SiteId site) {
        requireTransaction();
        return jdbc.queryForObject(
                "select recorded_at, written_at from ledger_clock(?)",
                (row, n) -> new Times(instant(row.getTimestamp(1)), instant(row.getTimestamp(2))),
                site.value());
    }

    private record Times(Instant recordedAt, Instant writtenAt) {}

    /** Names and free text of a record, and the salt of their digest. */
    record Hidden(UUID record, byte[] salt, String content) {

        static byte[] digest(byte[] salt, String content) {
            return new Digest("private 1")
                    .bytes("salt", salt)
                    .field("content", content)
                    .value();
        }
    }

    static Instant instant(@Nullable Timestamp stamp) {
        if (stamp == null) {
            throw new IllegalStateException("a time that the database always gives is missing");
        }
        return stamp.toInstant();
    }

    static OffsetDateTime utc(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }

    private static Instant micros(Instant instant) {
        return instant.truncatedTo(ChronoUnit.MICROS);
    }
}
