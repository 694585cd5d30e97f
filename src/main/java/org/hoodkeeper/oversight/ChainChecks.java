package org.hoodkeeper.oversight;

import jakarta.annotation.PreDestroy;
import java.sql.Array;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Stream;
import org.hoodkeeper.access.AuditChain;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Chain;
import org.hoodkeeper.ledger.Ids;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Checks the chains that a site's proof rests on when the officer asks: its record, its audit trail and the service's own. One
 * check at a time in an instance, with few readers, so that the site goes on working meanwhile; who asks while one runs is shown
 * that one.
 */
@Service
public class ChainChecks {

    /** Broken places that are kept and shown; all are counted. The command prints each. */
    public static final int MOST_BROKEN = 200;

    private static final int READERS = 2;

    /** No check of a record that one machine holds takes so long: its instance stopped. */
    private static final Duration LONGEST = Duration.ofMinutes(30);

    private static final Logger LOG = LoggerFactory.getLogger(ChainChecks.class);

    private final Chain chain;
    private final AuditChain trail;
    private final AuditTrail audit;
    private final JdbcTemplate jdbc;
    private final TransactionTemplate transaction;
    private final ExecutorService one = Executors.newSingleThreadExecutor(work -> {
        Thread thread = new Thread(work, "chain-check");
        thread.setDaemon(true);
        return thread;
    });
    private final Map<UUID, Future<?>> running = new ConcurrentHashMap<>();

    ChainChecks(
            Chain chain,
            AuditChain trail,
            AuditTrail audit,
            JdbcTemplate jdbc,
            PlatformTransactionManager transactions) {
        this.chain = chain;
        this.trail = trail;
        this.audit = audit;
        this.jdbc = jdbc;
        this.transaction = new TransactionTemplate(transactions);
    }

    /** Which chain a place is in. */
    public enum In {
        RECORD,
        AUDIT,
        SERVICE
    }

    /** @param what code as in {@link Chain.Broken} @param id the row concerned, where there is one */
    public record Broken(
            In in, long position, String what, @Nullable UUID id) {}

    /**
     * @param entries sealed entries of the record that were read
     * @param unsealed entries of the record that are not linked yet
     * @param events events of the two trails that were read
     * @param brokenCount how many places are broken; {@code broken} names the first of them
     */
    public record Result(
            Instant finishedAt,
            long entries,
            long unsealed,
            long position,
            String head,
            long events,
            long brokenCount,
            List<Broken> broken) {

        public boolean isWhole() {
            return brokenCount == 0;
        }
    }

    /** @param result none while it runs, and when its instance stopped @param lost it will not end any more */
    public record Check(
            UUID id,
            Instant startedAt,
            AccountId by,
            boolean lost,
            @Nullable Result result) {}

    /** An earlier head held against today's chain. */
    public enum Held {
        SAME,
        DIFFERS,
        /** The chain does not reach so far: entries are gone, or it is the head of another database. */
        TOO_FAR,
        OTHER_SITE
    }

    /** @param at when the entry or the seal was made; none where there is none */
    public record Compared(
            ChainHead head,
            Held held,
            @Nullable String today,
            @Nullable Instant at) {}

    /**
     * Starts a check, or finds the one that runs, and waits a while for its end.
     *
     * @throws Refused {@code verify.notYours}
     */
    public UUID check(Viewer viewer, Duration patience) {
        requireOfficer(viewer);
        Check newest = newest(viewer.site());
        if (newest != null && newest.result() == null && !newest.lost()) {
            await(newest.id(), patience);
            return newest.id();
        }
        UUID id = Ids.next();
        transaction.executeWithoutResult(status -> jdbc.update(
                "insert into chain_check (site_id, id, started_at, account_id) values (?, ?, clock_timestamp(), ?)",
                viewer.site().value(),
                id,
                viewer.account().value()));
        running.put(id, one.submit(() -> SiteBinding.run(viewer.site(), () -> run(viewer, id))));
        await(id, patience);
        return id;
    }

    /** @throws NotFound {@code verify.unknown} */
    public Check one(SiteId site, UUID id) {
        return read(site, " and c.id = ?", id).stream()
                .findFirst()
                .orElseThrow(() -> new NotFound("verify.unknown", id));
    }

    public @Nullable Check newest(SiteId site) {
        return read(site, " order by c.started_at desc limit 1").stream()
                .findFirst()
                .orElse(null);
    }

    /** The newest one that came to its end. */
    public @Nullable Check newestDone(SiteId site) {
        return read(site, " and r.check_id is not null order by c.started_at desc limit 1").stream()
                .findFirst()
                .orElse(null);
    }

    /** The heads of the three chains now, without a check. @param code the site's */
    public List<ChainHead> heads(SiteId site, String code) {
        return List.of(
                head(code, ChainHead.Of.RECORD, chain.head(site)),
                head(code, ChainHead.Of.AUDIT, trail.head(site)),
                head(ChainHead.SERVICE, ChainHead.Of.AUDIT, trail.head(null)));
    }

    /** As {@link #heads}, for whoever takes them along: that is noted. */
    public List<ChainHead> take(Viewer viewer, String code) {
        requireOfficer(viewer);
        List<ChainHead> heads = heads(viewer.site(), code);
        audit.record(
                viewer.site(),
                AuditEntry.of("head.taken")
                        .by(viewer.account())
                        .saying(heads.get(0).position() + " " + heads.get(1).position()));
        return heads;
    }

    /** Says of each head whether today's chain still has it, which is noted. */
    public List<Compared> compare(Viewer viewer, String code, List<ChainHead> earlier) {
        requireOfficer(viewer);
        List<Compared> compared =
                earlier.stream().map(head -> compare(viewer.site(), code, head)).toList();
        compared.forEach(done -> audit.record(
                viewer.site(),
                AuditEntry.of("head.compared")
                        .by(viewer.account())
                        .saying(done.held() + " " + done.head().of().word() + " "
                                + done.head().position())));
        return compared;
    }

    private Compared compare(SiteId site, String code, ChainHead head) {
        boolean ofService = head.site().equals(ChainHead.SERVICE) && head.of() == ChainHead.Of.AUDIT;
        if (!ofService && !head.site().equals(code)) {
            return new Compared(head, Held.OTHER_SITE, null, null);
        }
        Chain.Seal seal = head.of() == ChainHead.Of.RECORD
                ? chain.seal(site, head.position())
                : trail.seal(ofService ? null : site, head.position());
        if (seal.hash() == null) {
            return new Compared(head, Held.TOO_FAR, null, null);
        }
        Held held = seal.hash().equals(head.hash()) ? Held.SAME : Held.DIFFERS;
        return new Compared(head, held, seal.hash(), at(site, head, ofService));
    }

    private @Nullable Instant at(SiteId site, ChainHead head, boolean ofService) {
        String query = head.of() == ChainHead.Of.RECORD
                ? "select e.recorded_at from (select ?::uuid as site, ?::bigint as position) h"
                        + " cross join lateral (select s.entries[cardinality(s.entries) - (s.position - h.position)] as entry"
                        + " from ledger_seal s where s.site_id = h.site and s.position >= h.position"
                        + " order by s.position limit 1) s"
                        + " join ledger_entry e on e.site_id = h.site and e.id = s.entry"
                : ofService
                        ? "select s.until from service_audit_seal s where ?::uuid is not null and s.position = ?"
                        : "select s.until from audit_seal s where s.site_id = ? and s.position = ?";
        List<Instant> found = transaction.execute(status ->
                jdbc.query(query, (row, n) -> row.getTimestamp(1).toInstant(), site.value(), head.position()));
        return found == null || found.isEmpty() ? null : found.get(0);
    }

    private void run(Viewer viewer, UUID id) {
        try {
            SiteId site = viewer.site();
            Chain.Checked record = chain.check(site, READERS);
            Chain.Checked events = trail.check(site);
            Chain.Checked service = trail.check(null);
            List<Broken> broken = Stream.of(
                            broken(In.RECORD, record), broken(In.AUDIT, events), broken(In.SERVICE, service))
                    .flatMap(List::stream)
                    .toList();
            transaction.executeWithoutResult(status -> {
                jdbc.update(connection -> {
                    var insert = connection.prepareStatement("""
                            insert into chain_check_result (site_id, check_id, finished_at, entries, unsealed, position, head, events,
                                seal, seal_head, service_seal, service_head, broken_count, broken)
                            values (?, ?, clock_timestamp(), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)""");
                    insert.setObject(1, site.value());
                    insert.setObject(2, id);
                    insert.setLong(3, record.entries());
                    insert.setLong(4, record.unsealed());
                    insert.setLong(5, record.position());
                    insert.setString(6, record.head());
                    insert.setLong(7, events.entries() + service.entries());
                    insert.setLong(8, events.position());
                    insert.setString(9, events.head());
                    insert.setLong(10, service.position());
                    insert.setString(11, service.head());
                    insert.setLong(12, broken.size());
                    insert.setArray(
                            13,
                            connection.createArrayOf(
                                    "text",
                                    broken.stream()
                                            .limit(MOST_BROKEN)
                                            .map(ChainChecks::text)
                                            .toArray()));
                    return insert;
                });
                audit.record(
                        site,
                        AuditEntry.of("chain.verified")
                                .by(viewer.account())
                                .about(id)
                                .saying((broken.isEmpty() ? "whole " : "broken " + broken.size() + " ")
                                        + record.entries()));
            });
        } catch (DataAccessException failed) {
            // nobody waits for it any more: whoever looks again is told that it did not end
            LOG.error("a check of the chains did not end", failed);
        } finally {
            running.remove(id);
        }
    }

    private static List<Broken> broken(In in, Chain.Checked checked) {
        return checked.broken().stream()
                .map(one -> new Broken(in, one.position(), one.what(), one.id()))
                .sorted(Comparator.comparingLong(Broken::position))
                .toList();
    }

    private void await(UUID id, Duration patience) {
        Future<?> check = running.get(id);
        if (check == null) {
            return;
        }
        try {
            check.get(patience.toMillis(), TimeUnit.MILLISECONDS);
        } catch (TimeoutException goesOn) {
            // the page says so
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        } catch (ExecutionException failed) {
            throw new IllegalStateException("a check of the chains fell over", failed.getCause());
        }
    }

    private List<Check> read(SiteId site, String which, Object... arguments) {
        List<Object> all = new ArrayList<>(List.of(site.value()));
        all.addAll(List.of(arguments));
        List<Check> found = transaction.execute(status ->
                jdbc.query("""
                select c.id, c.started_at, c.account_id, c.started_at < clock_timestamp() - interval '%d minutes' as old, r.*
                from chain_check c
                left join chain_check_result r on r.site_id = c.site_id and r.check_id = c.id
                where c.site_id = ?""".formatted(LONGEST.toMinutes()) + which, (row, n) -> check(row), all.toArray()));
        return found == null ? List.of() : found;
    }

    private static Check check(ResultSet row) throws SQLException {
        Result result = null;
        if (row.getObject("check_id") != null) {
            Array broken = row.getArray("broken");
            result = new Result(
                    row.getTimestamp("finished_at").toInstant(),
                    row.getLong("entries"),
                    row.getLong("unsealed"),
                    row.getLong("position"),
                    row.getString("head"),
                    row.getLong("events"),
                    row.getLong("broken_count"),
                    Stream.of((String[]) broken.getArray())
                            .map(ChainChecks::broken)
                            .toList());
        }
        return new Check(
                row.getObject("id", UUID.class),
                row.getTimestamp("started_at").toInstant(),
                new AccountId(row.getObject("account_id", UUID.class)),
                result == null && row.getBoolean("old"),
                result);
    }

    private static String text(Broken broken) {
        return broken.in() + " " + broken.position() + " " + broken.what()
                + (broken.id() == null ? "" : " " + broken.id());
    }

    private static Broken broken(String text) {
        String[] parts = text.split(" ");
        return new Broken(
                In.valueOf(parts[0]),
                Long.parseLong(parts[1]),
                parts[2],
                parts.length > 3 ? UUID.fromString(parts[3]) : null);
    }

    private static ChainHead head(String code, ChainHead.Of of, Chain.Seal seal) {
        return new ChainHead(code, of, seal.position(), String.valueOf(seal.hash()));
    }

    private static void requireOfficer(Viewer viewer) {
        if (!viewer.is(Role.OFFICER)) {
            throw new Refused("verify.notYours");
        }
    }

    @PreDestroy
    void stop() {
        one.shutdownNow();
    }
}
