package org.hoodkeeper.ledger;

import java.io.IOException;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import javax.sql.DataSource;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.stereotype.Component;

/**
 * Checks a site's record: every row against its hash, every entry against its rows, every seal against the one before, and
 * what was erased against the records that tell of it. The record is cut into parts that several connections read at one
 * snapshot, so that a check is as fast as the machine reads and hashes.
 */
@Component
public class Chain {

    /** Each reader keeps one process of the database or one thread of ours busy, not both at once. */
    private static final int MOST_READERS = 8;

    private static final int AT_ONCE = 50_000;

    /** The first seal at or after each of so many positions. */
    private static final String CUTS = """
            select distinct s.position, s.entries[cardinality(s.entries)] from generate_series(%d, %d, %1$d) p
            cross join lateral (select c.position, c.entries from ledger_seal c
                where c.site_id = %3$s and c.position >= p order by c.position limit 1) s""";

    /** Entries that are in no run, though the head says that all of their time are. */
    private static final String IN_NO_SEAL = """
            select e.id, 0 from ledger_entry e where e.site_id = %1$s
              and e.recorded_at <= (select h.recorded_at from ledger_head h where h.site_id = %1$s)
              and e.id not in (select unnest(s.entries) from ledger_seal s where s.site_id = %1$s)""";

    private static final String AFTER_HEAD = """
            select count(*) from ledger_entry e left join ledger_head h on h.site_id = e.site_id
            where e.site_id = %s and (h.site_id is null or e.recorded_at > h.recorded_at
                or e.recorded_at = h.recorded_at and not exists (select 1 from ledger_seal s where s.site_id = e.site_id
                    and s.recorded_until = e.recorded_at and e.id = any (s.entries)))""";

    /** No writer leaves such a record, and no foreign key lets one in. */
    private static final String IN_NO_ENTRY = """
            select r.id, 0 from ledger_record r
            where not exists (select 1 from ledger_entry e where e.site_id = r.site_id and e.id = r.entry_id)
              and r.site_id =\s""";

    private static final String WITHOUT_PRIVATE = """
            select r.id, coalesce(ledger_position(r.site_id, r.entry_id), 0) from ledger_record r
            where r.private_digest is not null
              and not exists (select 1 from ledger_private p where p.site_id = r.site_id and p.record_id = r.id)
              and r.site_id =\s""";

    private final DataSource dataSource;

    public Chain(DataSource dataSource) {
        this.dataSource = dataSource;
    }

    /**
     * What a check found.
     *
     * @param entries sealed entries that were read
     * @param unsealed entries that are not linked yet
     * @param position the last seal's position, 0 for none
     * @param head the last seal's hash, hexadecimal
     * @param broken each broken place, in the order of the chain; empty when all is whole
     */
    public record Checked(long entries, long unsealed, long position, String head, List<Broken> broken) {

        public boolean isWhole() {
            return broken.isEmpty();
        }
    }

    /**
     * @param position the seal's position, 0 where a row hangs on no seal
     * @param what code of what is wrong: {@code record.changed}, {@code record.missing}, {@code record.inserted}, {@code entry.changed},
     *     {@code entry.missing}, {@code entry.inserted}, {@code seal.changed}, {@code seal.missing}, {@code head.differs},
     *     {@code private.changed}, {@code private.missing}, {@code private.inserted},
     *     {@code erased.untold}, {@code erased.differs}
     * @param id the row concerned
     */
    public record Broken(
            long position, String what, @Nullable UUID id) {}

    /**
     * A seal as it stands today, for a comparison with a head that was taken out earlier.
     *
     * @param hash hexadecimal; none when the chain does not reach so far
     */
    public record Seal(long position, @Nullable String hash) {}

    /** Reads every row of the site. Takes connections of its own: call it outside of a transaction. */
    public Checked check(SiteId site) {
        return check(site, Math.min(MOST_READERS, 2 * Runtime.getRuntime().availableProcessors()));
    }

    /** As {@link #check(SiteId)}. @param readers connections at once beside the leading one, from 1; fewer leave more to others */
    public Checked check(SiteId site, int readers) {
        try (Connection lead = connect(site, null)) {
            return check(site, lead, snapshot(lead), readers);
        } catch (SQLException | IOException broken) {
            throw new DataAccessResourceFailureException("the record could not be read to its end", broken);
        }
    }

    /** The last seal, without a check. */
    public Seal head(SiteId site) {
        try (Connection connection = connect(site, null)) {
            Head head = readHead(site, connection);
            return new Seal(head.position(), HexFormat.of().formatHex(head.hash()));
        } catch (SQLException broken) {
            throw new DataAccessResourceFailureException("the head could not be read", broken);
        }
    }

    /** One seal, without a check. @param position from 1; 0 is the beginning, before the first entry */
    public Seal seal(SiteId site, long position) {
        if (position == 0) {
            return new Seal(0, HexFormat.of().formatHex(Sealer.BEGINNING));
        }
        try (Connection connection = connect(site, null)) {
            byte[] hash = new ChainPart(site, connection).hashAt(position);
            return new Seal(position, hash == null ? null : HexFormat.of().formatHex(hash));
        } catch (SQLException broken) {
            throw new DataAccessResourceFailureException("the seal could not be read", broken);
        }
    }

    private Checked check(SiteId site, Connection lead, String snapshot, int atOnce) throws SQLException, IOException {
        Head head = readHead(site, lead);
        long last = Math.max(
                head.position(),
                number(lead, "select coalesce(max(position), 0) from ledger_seal where site_id = " + quoted(site)));
        List<Callable<ChainPart>> parts = new ArrayList<>();
        List<Long> positions = new ArrayList<>();
        List<@Nullable UUID> ids = new ArrayList<>();
        cut(site, lead, last, positions, ids);
        long from = 0;
        for (long position : positions) {
            long after = from;
            parts.add(() -> read(site, snapshot, part -> part.seals(after, position)));
            from = position;
        }
        UUID before = null;
        for (UUID id : ids) {
            UUID after = before;
            parts.add(() -> read(site, snapshot, part -> part.entries(after, id)));
            parts.add(() -> read(site, snapshot, part -> part.hidden(after, id)));
            before = id;
        }
        parts.add(() -> read(site, snapshot, ChainPart::erasures));
        List<Broken> broken = new ArrayList<>();
        long entries = 0;
        long sealed = 0;
        long records = 0;
        long hiddenMissing = 0;
        byte[] hash = Sealer.BEGINNING;
        long reached = 0;
        for (ChainPart part : all(parts, atOnce)) {
            broken.addAll(part.broken());
            sealed += part.sealsRead();
            entries += part.entriesRead();
            records += part.recordsRead();
            hiddenMissing += part.hiddenMissing();
            if (part.lastPosition() > reached) {
                reached = part.lastPosition();
                hash = part.lastSeal();
            }
        }
        if (head.isThere() && (head.position() != reached || !java.util.Arrays.equals(head.hash(), hash))) {
            broken.add(new Broken(head.position(), "head.differs", null));
        }
        long missing = broken.stream()
                .filter(one -> one.what().equals("entry.missing"))
                .count();
        long unsealed = number(lead, AFTER_HEAD.formatted(quoted(site)));
        if (entries - unsealed != sealed - missing) {
            name(lead, broken, "entry.inserted", IN_NO_SEAL.formatted(quoted(site)));
        }
        if (number(lead, "select count(*) from ledger_record where site_id = " + quoted(site)) != records) {
            name(lead, broken, "record.inserted", IN_NO_ENTRY + quoted(site));
        }
        if (hiddenMissing != 0) {
            name(lead, broken, "private.missing", WITHOUT_PRIVATE + quoted(site));
        }
        List<Broken> inOrder = broken.stream()
                .distinct() // an entry may be found changed by itself and in its run
                .sorted(Comparator.comparingLong(Broken::position).thenComparing(Broken::what))
                .toList();
        return new Checked(sealed, unsealed, reached, HexFormat.of().formatHex(hash), inOrder);
    }

    private ChainPart read(SiteId site, String snapshot, Reading reading) throws SQLException, IOException {
        try (Connection connection = connect(site, snapshot)) {
            ChainPart part = new ChainPart(site, connection);
            reading.of(part);
            return part;
        }
    }

    private interface Reading {
        void of(ChainPart part) throws SQLException, IOException;
    }

    private static List<ChainPart> all(List<Callable<ChainPart>> parts, int atOnce) {
        ExecutorService readers = Executors.newFixedThreadPool(atOnce);
        try {
            List<ChainPart> done = new ArrayList<>();
            for (Future<ChainPart> part : readers.invokeAll(parts)) {
                done.add(part.get());
            }
            return done;
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("the check was stopped", stopped);
        } catch (ExecutionException failed) {
            throw new DataAccessResourceFailureException("the record could not be read to its end", failed.getCause());
        } finally {
            readers.shutdownNow();
        }
    }

    private static void name(Connection lead, List<Broken> broken, String what, String query) throws SQLException {
        try (Statement statement = lead.createStatement();
                ResultSet row = statement.executeQuery(query)) {
            while (row.next()) {
                broken.add(new Broken(row.getLong(2), what, row.getObject(1, UUID.class)));
            }
        }
    }

    /** Where to cut the seals, by position, and the entries, by id: at every so many, and after the last. */
    private static void cut(SiteId site, Connection lead, long last, List<Long> positions, List<@Nullable UUID> ids)
            throws SQLException {
        try (Statement statement = lead.createStatement();
                ResultSet row = statement.executeQuery(CUTS.formatted(AT_ONCE, last, quoted(site)))) {
            while (row.next()) {
                positions.add(row.getLong(1));
                ids.add(row.getObject(2, UUID.class));
            }
        }
        Collections.sort(positions);
        if (positions.isEmpty() || positions.get(positions.size() - 1) < last) {
            positions.add(last);
        }
        ids.sort(Comparator.comparing(UUID::toString)); // the database's order of ids is that of their signs
        ids.add(null);
    }

    private record Head(long position, byte[] hash, boolean isThere) {}

    private static Head readHead(SiteId site, Connection connection) throws SQLException {
        try (PreparedStatement query =
                connection.prepareStatement("select position, hash from ledger_head where site_id = ?")) {
            query.setObject(1, site.value());
            try (ResultSet row = query.executeQuery()) {
                return row.next()
                        ? new Head(row.getLong(1), row.getBytes(2), true)
                        : new Head(0, Sealer.BEGINNING, false);
            }
        }
    }

    private static long number(Connection connection, String query) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(query)) {
            row.next();
            return row.getLong(1);
        }
    }

    private static String snapshot(Connection lead) throws SQLException {
        try (Statement statement = lead.createStatement();
                ResultSet row = statement.executeQuery("select pg_export_snapshot()")) {
            row.next();
            return row.getString(1);
        }
    }

    /** @param snapshot the snapshot to read at; none for a new one */
    private Connection connect(SiteId site, @Nullable String snapshot) throws SQLException {
        Connection connection = dataSource.getConnection();
        try {
            connection.setReadOnly(true);
            connection.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
            connection.setAutoCommit(false);
            try (Statement statement = connection.createStatement()) {
                if (snapshot != null) {
                    statement.execute("set transaction snapshot '" + snapshot + "'");
                }
                statement.execute("select set_config('hoodkeeper.site', " + quoted(site) + ", true)");
                // the leading connection waits for the readers, and holds nobody up
                statement.execute("set local idle_in_transaction_session_timeout = 0");
            }
            return connection;
        } catch (SQLException failed) {
            connection.close();
            throw failed;
        }
    }

    static String quoted(SiteId site) {
        return "'" + site.value() + "'";
    }
}
