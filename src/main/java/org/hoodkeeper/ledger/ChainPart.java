package org.hoodkeeper.ledger;

import static org.hoodkeeper.ledger.RowBytes.form;
import static org.hoodkeeper.ledger.RowBytes.name;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.sql.Array;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;

/** One part of a check, read by one connection in one go. The hashes are those of {@link Row}, {@link Ledger} and {@link Sealer}. */
final class ChainPart {

    private static final byte[] SITE = name("site");
    private static final byte[] ID = name("id");
    private static final byte[] KIND = name("kind");
    private static final byte[] SUBJECT = name("subject");
    private static final byte[] ITEM = name("item");
    private static final byte[] SCOPE = name("scope");
    private static final byte[] FROM = name("from");
    private static final byte[] UNTIL = name("until");
    private static final byte[] RECORDED_AT = name("recordedAt");
    private static final byte[] ENTRY = name("entry");
    private static final byte[] CORRECTS = name("corrects");
    private static final byte[] WITHDRAWN = name("withdrawn");
    private static final byte[] SOURCE = name("source");
    private static final byte[] BODY = name("body");
    private static final byte[] PRIVATE = name("private");
    private static final byte[] ACCOUNT = name("account");
    private static final byte[] VIA = name("via");
    private static final byte[] RECORDS = name("records");
    private static final byte[] RECORDS_DIGEST = name("recordsDigest");
    private static final byte[] RECORD = name("record");
    private static final byte[] PREVIOUS = name("previous");
    private static final byte[] POSITION = name("position");
    private static final byte[] SALT = name("salt");
    private static final byte[] CONTENT = name("content");
    private static final byte[] RECORD_FORM = form("record 1");
    private static final byte[] RECORDS_FORM = form("records 1");
    private static final byte[] ENTRY_FORM = form("entry 1");
    private static final byte[] SEAL_FORM = form("seal 1");
    private static final byte[] PRIVATE_FORM = form("private 1");
    private static final byte[] TRUE = "true".getBytes(StandardCharsets.US_ASCII);
    private static final byte[] FALSE = "false".getBytes(StandardCharsets.US_ASCII);

    private static final int HASH = 32;
    private static final byte[] NO_HASH = new byte[HASH];

    /** A run a row: its own columns, the hashes that its entries have today, and whether its times are theirs. */
    private static final String RUNS = """
            select s.position, cardinality(s.entries), s.marks, s.hash, x.hashes,
                coalesce(s.recorded_from = x.earliest and s.recorded_until = x.latest, false)
            from ledger_seal s cross join lateral (
                select string_agg(coalesce(e.hash, decode(repeat('00', 32), 'hex')), ''::bytea order by u.n) as hashes,
                    min(e.recorded_at) as earliest, max(e.recorded_at) as latest
                from unnest(s.entries) with ordinality u(id, n)
                left join ledger_entry e on e.site_id = s.site_id and e.id = u.id) x
            where s.site_id = %s and s.position > %d and s.position <= %d order by s.position""";

    private final String site;
    private final Connection connection;
    private final RowBytes bytes = new RowBytes();
    private final List<Chain.Broken> broken = new ArrayList<>();
    private long sealsRead;
    private long entriesRead;
    private long recordsRead;
    private long digestsRead;
    private long hiddenRead;
    private long lastPosition;
    private byte[] lastSeal = Sealer.BEGINNING;

    ChainPart(SiteId site, Connection connection) {
        this.site = Chain.quoted(site);
        this.connection = connection;
    }

    List<Chain.Broken> broken() {
        return broken;
    }

    long sealsRead() {
        return sealsRead;
    }

    long entriesRead() {
        return entriesRead;
    }

    long recordsRead() {
        return recordsRead;
    }

    /** Records that say that they have a private part, less the private parts that were read. */
    long hiddenMissing() {
        return digestsRead - hiddenRead;
    }

    long lastPosition() {
        return lastPosition;
    }

    byte[] lastSeal() {
        return lastSeal;
    }

    /**
     * The seals of some positions, each against its entries and the seal before.
     *
     * @param after the last position of an earlier seal, 0 for none
     * @param upTo the last position of a seal
     */
    void seals(long after, long upTo) throws SQLException, IOException {
        plan(Join.BY_LOOKING_UP);
        byte[] before = before(after);
        List<Place> places = new ArrayList<>();
        long reached = after;
        try (CopyRows rows = rows(RUNS.formatted(site, after, upTo), 6)) {
            while (rows.next()) {
                long position = rows.int64Of(0);
                int count = rows.int32Of(1);
                if (position - count != reached) {
                    broken.add(new Chain.Broken(reached + 1, "seal.missing", null));
                }
                List<Place> changed = changed(position, count, rows);
                places.addAll(changed);
                // what was changed or is missing is named once, as that: the run's own hash then says no more
                if (changed.isEmpty() && !isWhole(before, position, count, rows)) {
                    places.add(new Place(position, 0, "seal.changed"));
                }
                sealsRead += count;
                reached = position;
                before = rows.bytes(3);
            }
        }
        lastPosition = reached;
        lastSeal = before;
        if (reached < upTo) {
            broken.add(new Chain.Broken(reached + 1, "seal.missing", null));
        }
        addBroken(places);
    }

    /** The hash in the chain after the entry of that position, as its run's entries are today; none when there is none. */
    byte @Nullable [] hashAt(long position) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("select position, position - cardinality(entries), hash"
                        + " from ledger_seal where site_id = " + site + " and position >= " + position
                        + " order by position limit 1")) {
            if (!row.next()) {
                return null;
            }
            return row.getLong(1) == position ? row.getBytes(3) : within(row.getLong(1), row.getLong(2), position);
        }
    }

    private byte[] within(long run, long first, long position) throws SQLException {
        byte[] hash = before(first);
        long at = first;
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("select e.hash from ledger_seal s"
                        + " cross join unnest(s.entries) with ordinality u(id, n)"
                        + " left join ledger_entry e on e.site_id = s.site_id and e.id = u.id"
                        + " where s.site_id = " + site + " and s.position = " + run + " and u.n <= "
                        + (position - first)
                        + " order by u.n")) {
            while (row.next()) {
                at++;
                byte[] entry = row.getBytes(1);
                hash = Sealer.next(hash, at, entry == null ? NO_HASH : entry);
            }
        }
        return hash;
    }

    private byte[] before(long position) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(
                        "select hash from ledger_seal where site_id = " + site + " and position = " + position)) {
            return row.next() ? row.getBytes(1) : Sealer.BEGINNING;
        }
    }

    /** Entries of a run whose hash today is not the one that it was sealed with, by the marks of them. */
    private static List<Place> changed(long position, int count, CopyRows rows) {
        byte[] marks = rows.bytes(2);
        byte[] hashes = rows.bytes(4);
        List<Place> changed = new ArrayList<>();
        if (isOfLength(count, marks, hashes)) {
            for (int i = 0; i < count; i++) {
                int mark = i * Sealer.MARK;
                int hash = i * HASH;
                if (!Arrays.equals(marks, mark, mark + Sealer.MARK, hashes, hash, hash + Sealer.MARK)) {
                    boolean missing = Arrays.equals(hashes, hash, hash + HASH, NO_HASH, 0, HASH);
                    changed.add(new Place(
                            position - count + i + 1, i + 1 - count, missing ? "entry.missing" : "entry.changed"));
                }
            }
        }
        return changed;
    }

    /** Whether a run's entries lead from the hash before it to its own, and its other columns agree with them. */
    private boolean isWhole(byte[] before, long position, int count, CopyRows rows) {
        byte[] hashes = rows.bytes(4);
        if (!isOfLength(count, rows.bytes(2), hashes)) {
            return false;
        }
        byte[] link = before;
        for (int i = 0; i < count; i++) {
            link = bytes.begin(SEAL_FORM)
                    .raw(PREVIOUS, link)
                    .number(POSITION, position - count + i + 1)
                    .raw(ENTRY, hashes, i * HASH, HASH)
                    .hash();
        }
        return rows.sameBytes(3, link) && rows.bool(5);
    }

    private static boolean isOfLength(int count, byte[] marks, byte[] hashes) {
        return marks.length == count * Sealer.MARK && hashes.length == count * HASH;
    }

    /** @param index of the entry in its run, counted back from the last, which is 0 */
    private record Place(long position, int index, String what) {}

    private void addBroken(List<Place> places) throws SQLException {
        try (PreparedStatement query =
                connection.prepareStatement("select entries[cardinality(entries) + ?] from ledger_seal where site_id = "
                        + site + " and position = ?")) {
            for (Place place : places) {
                query.setInt(1, place.index());
                query.setLong(2, place.position() - place.index());
                try (ResultSet row = query.executeQuery()) {
                    broken.add(new Chain.Broken(
                            place.position(), place.what(), row.next() ? row.getObject(1, UUID.class) : null));
                }
            }
        }
    }

    /** The entries between two ids, each against its records, and those against their hashes. Both ends may be open. */
    void entries(@Nullable UUID after, @Nullable UUID upTo) throws SQLException, IOException {
        plan(Join.BY_MERGING);
        List<UUID> changed = new ArrayList<>();
        List<UUID> incomplete = new ArrayList<>();
        List<Chain.Broken> records = new ArrayList<>();
        Gathered entry = new Gathered();
        try (CopyRows rows = rows(
                "select e.site_id, e.id, e.recorded_at, e.account_id, e.via, e.records, e.records_digest, e.hash,"
                        + " r.id, r.kind, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.entry_id,"
                        + " r.corrects, r.withdrawn, r.source_id, r.body, r.private_digest, r.hash"
                        + " from ledger_entry e left join ledger_record r on r.site_id = e.site_id and r.entry_id = e.id"
                        + between("e.site_id", "e.id", after, upTo) + " order by e.id, r.id",
                23)) {
            while (rows.next()) {
                if (!entry.is(rows)) {
                    if (entry.isIncomplete()) {
                        incomplete.add(entry.id());
                    }
                    entry.begin(rows);
                    entriesRead++;
                    if (!rows.sameBytes(7, entry(rows))) {
                        changed.add(entry.id());
                    }
                }
                if (!rows.isNull(8)) {
                    byte[] hash = record(rows);
                    if (!rows.sameBytes(22, hash)) {
                        records.add(new Chain.Broken(0, "record.changed", rows.uuid(8)));
                        hash = rows.bytes(22);
                    }
                    entry.add(hash);
                    recordsRead++;
                    if (!rows.isNull(21)) {
                        digestsRead++;
                    }
                }
            }
        }
        if (entry.isIncomplete()) {
            incomplete.add(entry.id());
        }
        changed.forEach(id -> broken.add(new Chain.Broken(0, "entry.changed", id)));
        for (UUID id : incomplete) {
            withErased(id);
        }
        broken.addAll(records);
        place();
    }

    private byte[] entry(CopyRows rows) {
        return bytes.begin(ENTRY_FORM)
                .uuid(SITE, rows, 0)
                .uuid(ID, rows, 1)
                .micros(RECORDED_AT, rows, 2)
                .uuid(ACCOUNT, rows, 3)
                .raw(VIA, rows, 4)
                .number(RECORDS, rows.int32Of(5))
                .raw(RECORDS_DIGEST, rows, 6)
                .hash();
    }

    private byte[] record(CopyRows rows) {
        return bytes.begin(RECORD_FORM)
                .uuid(SITE, rows, 0)
                .uuid(ID, rows, 8)
                .number(KIND, rows.int16Of(9))
                .uuid(SUBJECT, rows, 10)
                .uuid(ITEM, rows, 11)
                .raw(SCOPE, rows, 12)
                .micros(FROM, rows, 13)
                .micros(UNTIL, rows, 14)
                .micros(RECORDED_AT, rows, 15)
                .uuid(ENTRY, rows, 16)
                .uuid(CORRECTS, rows, 17)
                .raw(WITHDRAWN, rows.bool(18) ? TRUE : FALSE)
                .raw(SOURCE, rows, 19)
                .raw(BODY, rows, 20)
                .raw(PRIVATE, rows, 21)
                .hash();
    }

    /** Gathers the records of one entry and compares them with what the entry says of them. */
    private final class Gathered {
        private long most;
        private long least;
        private boolean begun;
        private int expected;
        private byte[] expectedDigest = new byte[0];
        private int seen;
        private byte[] only = new byte[0];
        private @Nullable Digest digest;

        boolean is(CopyRows rows) {
            UUID id = rows.uuid(1);
            return begun && id != null && id.getMostSignificantBits() == most && id.getLeastSignificantBits() == least;
        }

        void begin(CopyRows rows) {
            UUID id = rows.uuid(1);
            most = id == null ? 0 : id.getMostSignificantBits();
            least = id == null ? 0 : id.getLeastSignificantBits();
            begun = true;
            expected = rows.int32Of(5);
            expectedDigest = rows.bytes(6);
            seen = 0;
            digest = null;
        }

        void add(byte[] hash) {
            seen++;
            if (expected == 1 && seen == 1) {
                only = hash;
                return;
            }
            if (digest == null) {
                digest = Ledger.recordsDigest();
                if (seen == 2) {
                    digest.bytes("record", only);
                }
            }
            digest.bytes("record", hash);
        }

        /** Whether the records do not add up: some are missing, too many, or others than they were. */
        boolean isIncomplete() {
            if (!begun) {
                return false;
            }
            if (seen != expected) {
                return true;
            }
            byte[] actual =
                    digest == null ? bytes.begin(RECORDS_FORM).raw(RECORD, only).hash() : digest.value();
            return !Arrays.equals(actual, expectedDigest);
        }

        UUID id() {
            return new UUID(most, least);
        }
    }

    /** An entry whose records do not add up, with what is left of those that were erased. */
    private void withErased(UUID entry) throws SQLException {
        int expected = 0;
        int seen = 0;
        byte[] expectedDigest = new byte[0];
        Digest digest = Ledger.recordsDigest();
        try (PreparedStatement query =
                connection.prepareStatement("select e.records, e.records_digest, r.hash from ledger_entry e"
                        + " left join (select entry_id, id, hash from ledger_record where site_id = " + site
                        + " and entry_id = ?"
                        + " union all select entry_id, record_id, hash from ledger_erased where site_id = " + site
                        + " and entry_id = ?) r on r.entry_id = e.id where e.site_id = " + site
                        + " and e.id = ? order by r.id")) {
            query.setObject(1, entry);
            query.setObject(2, entry);
            query.setObject(3, entry);
            try (ResultSet row = query.executeQuery()) {
                while (row.next()) {
                    expected = row.getInt(1);
                    expectedDigest = row.getBytes(2);
                    byte[] hash = row.getBytes(3);
                    if (hash != null) {
                        digest.bytes("record", hash);
                        seen++;
                    }
                }
            }
        }
        if (seen < expected) {
            broken.add(new Chain.Broken(0, "record.missing", entry));
        } else if (seen > expected || !Arrays.equals(digest.value(), expectedDigest)) {
            broken.add(new Chain.Broken(0, "entry.changed", entry));
        }
    }

    /** Names and free text of the records between two ids. What is missing is found by counting, see {@link Chain}. */
    void hidden(@Nullable UUID after, @Nullable UUID upTo) throws SQLException, IOException {
        plan(Join.BY_LOOKING_UP);
        try (CopyRows rows = rows(
                "select p.record_id, r.private_digest, p.salt, p.content from ledger_private p"
                        + " left join ledger_record r on r.site_id = p.site_id and r.id = p.record_id"
                        + between("p.site_id", "p.record_id", after, upTo),
                4)) {
            while (rows.next()) {
                if (rows.isNull(1)) {
                    broken.add(new Chain.Broken(0, "private.inserted", rows.uuid(0)));
                    continue;
                }
                hiddenRead++;
                if (!rows.sameBytes(
                        1,
                        bytes.begin(PRIVATE_FORM)
                                .raw(SALT, rows, 2)
                                .raw(CONTENT, rows, 3)
                                .hash())) {
                    broken.add(new Chain.Broken(0, "private.changed", rows.uuid(0)));
                }
            }
        }
        place();
    }

    /** What is left of erased records, against the records that tell of their erasure. */
    void erasures() throws SQLException, IOException {
        try (PreparedStatement query =
                connection.prepareStatement("select x.erased_by, x.record_id, x.hash, r.kind, r.body::text"
                        + " from ledger_erased x left join ledger_record r on r.site_id = x.site_id and r.id = x.erased_by"
                        + " where x.site_id = " + site + " order by x.erased_by, x.record_id")) {
            query.setFetchSize(2_000);
            try (ResultSet row = query.executeQuery()) {
                UUID erasure = null;
                String body = null;
                Left left = new Left();
                while (row.next()) {
                    UUID next = row.getObject(1, UUID.class);
                    if (!next.equals(erasure)) {
                        compare(erasure, body, left);
                        erasure = next;
                        body = row.getInt(4) == Kind.ERASURE.number() ? row.getString(5) : null;
                        left = new Left();
                    }
                    left.add(row.getObject(2, UUID.class), row.getBytes(3));
                }
                compare(erasure, body, left);
            }
        }
        try (PreparedStatement query = connection.prepareStatement("select r.id from ledger_record r where r.site_id = "
                        + site
                        + " and r.kind = " + Kind.ERASURE.number() + " and not exists (select 1 from ledger_erased x"
                        + " where x.site_id = r.site_id and x.erased_by = r.id)");
                ResultSet row = query.executeQuery()) {
            while (row.next()) {
                broken.add(new Chain.Broken(0, "erased.differs", row.getObject(1, UUID.class)));
            }
        }
        place();
    }

    private void compare(@Nullable UUID erasure, @Nullable String body, Left left) {
        if (erasure == null) {
            return;
        }
        if (body == null) {
            broken.add(new Chain.Broken(0, "erased.untold", erasure));
            return;
        }
        Map<String, Object> told = FactJson.values(body);
        if (!Integer.valueOf(left.count).equals(told.get("records"))
                || !left.value().equals(told.get("digest"))) {
            broken.add(new Chain.Broken(0, "erased.differs", erasure));
        }
    }

    /** Digest over what is left of erased records, in the order of their ids. */
    static final class Left {
        private final Digest digest = new Digest("erased 1");
        private int count;

        void add(UUID record, byte[] hash) {
            digest.field("id", record).bytes("hash", hash);
            count++;
        }

        int count() {
            return count;
        }

        String value() {
            return HexFormat.of().formatHex(digest.value());
        }
    }

    /** Finds the seals on which the broken rows hang: few, or the record is lost anyway. */
    private void place() throws SQLException {
        List<UUID> ids = broken.stream().map(Chain.Broken::id).toList();
        if (ids.isEmpty()) {
            return;
        }
        Map<UUID, Long> positions = new java.util.HashMap<>();
        Array array = connection.createArrayOf("uuid", ids.toArray());
        try (PreparedStatement query = connection.prepareStatement("select b.id, coalesce(ledger_position(" + site
                + ", coalesce(r.entry_id, b.id)), 0) from unnest(?) b(id)"
                + " left join ledger_record r on r.site_id = " + site + " and r.id = b.id")) {
            query.setArray(1, array);
            try (ResultSet row = query.executeQuery()) {
                while (row.next()) {
                    positions.put(row.getObject(1, UUID.class), row.getLong(2));
                }
            }
        }
        broken.replaceAll(
                one -> new Chain.Broken(positions.getOrDefault(one.id(), one.position()), one.what(), one.id()));
    }

    /** How two tables meet. Said aloud: fresh tables have no statistics, and a wrong guess costs a thousandfold. */
    private enum Join {
        BY_LOOKING_UP("hashjoin", "mergejoin"),
        BY_MERGING("hashjoin", "nestloop");

        private final List<String> without;

        Join(String... without) {
            this.without = List.of(without);
        }
    }

    private void plan(Join join) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute("set local enable_seqscan = off");
            statement.execute("set local enable_bitmapscan = off");
            for (String way : join.without) {
                statement.execute("set local enable_" + way + " = off");
            }
        }
    }

    private String between(String siteColumn, String idColumn, @Nullable UUID after, @Nullable UUID upTo) {
        return " where " + siteColumn + " = " + site
                + (after == null ? "" : " and " + idColumn + " > '" + after + "'")
                + (upTo == null ? "" : " and " + idColumn + " <= '" + upTo + "'");
    }

    private CopyRows rows(String query, int columns) throws SQLException, IOException {
        return new CopyRows(connection, query, columns);
    }
}
