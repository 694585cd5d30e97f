package org.hoodkeeper.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.hoodkeeper.database.BulkInsert;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestDatabase;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.programme.SiteRegister;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * How fast a record is checked, and what the chain costs those who write. Figures of a machine go to standard output; what is
 * asserted lies far enough below to hold on a busy one. For durable writes set HOODKEEPER_TEST_FSYNC=on.
 */
@SpringBootTest(properties = "spring.datasource.hikari.maximum-pool-size=24")
@Tag("large")
class ProofSpeedTest {

    private static final int ENTRIES = Integer.getInteger("hoodkeeper.proof.entries", 500_000);
    private static final int WRITERS = 16;
    private static final int ROUNDS = 5;
    private static final int WARMING = 5;
    private static final Duration ROUND = Duration.ofSeconds(4);

    private static final Instant TRUE_FROM = Instant.parse("2026-01-01T10:00:00Z");

    private static final AtomicInteger SITES = new AtomicInteger();

    @Autowired
    Ledger ledger;

    @Autowired
    Sealer sealer;

    @Autowired
    Chain chain;

    @Autowired
    SiteRegister sites;

    @Autowired
    TransactionTemplate transaction;

    @Autowired
    JdbcTemplate jdbc;

    private SiteId site;
    private Author author;
    private final WorkerId worker = new WorkerId(UUID.randomUUID());

    @BeforeEach
    void aSite() {
        site = sites.open(
                        "speed-" + SITES.incrementAndGet() + "-"
                                + ProcessHandle.current().pid(),
                        "Speed",
                        ZoneId.of("Europe/London"),
                        "uk")
                .id();
        author = new Author(site, new AccountId(UUID.randomUUID()), Author.Via.FORM);
    }

    /** One record an entry, a third of them with a private part: as forms leave them. */
    @Test
    void aWholeRecordIsChecked() {
        lay();
        double best = 0;
        for (int round = 0; round < ROUNDS; round++) {
            long begun = System.nanoTime();
            Chain.Checked checked = chain.check(site);
            double seconds = (System.nanoTime() - begun) / 1e9;
            assertThat(checked.broken()).isEmpty();
            assertThat(checked.entries()).isEqualTo(ENTRIES);
            best = Math.max(best, ENTRIES / seconds);
            System.out.printf(
                    Locale.ROOT, "verify: %d entries in %.2f s, %.0f a second%n", ENTRIES, seconds, ENTRIES / seconds);
        }
        assertThat(best).isGreaterThan(50_000);
    }

    private void lay() {
        SiteBinding.run(
                site,
                () -> transaction.executeWithoutResult(status -> {
                    BulkInsert entries = new BulkInsert(
                            jdbc,
                            "ledger_entry",
                            List.of(
                                    "site_id",
                                    "id",
                                    "recorded_at",
                                    "written_at",
                                    "account_id",
                                    "via",
                                    "records",
                                    "records_digest",
                                    "hash"));
                    BulkInsert records = new BulkInsert(jdbc, "ledger_record", Ledger.RECORD_COLUMNS);
                    BulkInsert hidden =
                            new BulkInsert(jdbc, "ledger_private", List.of("site_id", "record_id", "salt", "content"));
                    Instant at = Instant.parse("2026-01-01T00:00:00Z");
                    for (int i = 1; i <= ENTRIES; i++) {
                        at = at.plusMillis(10);
                        UUID entry = Ids.next();
                        UUID record = Ids.next();
                        byte[] salt = new byte[16];
                        String content = i % 3 == 0 ? "{\"trainer\":\"Somebody Invented\"}" : null;
                        byte[] privateDigest = content == null ? null : Ledger.Hidden.digest(salt, content);
                        Row row = new Row(
                                site.value(),
                                record,
                                1,
                                worker.value(),
                                null,
                                "HOOD-A",
                                at,
                                null,
                                at,
                                entry,
                                null,
                                false,
                                "S-" + i,
                                "{\"contentVersion\":\"1\",\"demonstrated\":true,\"outcome\":\"PASS\"}",
                                privateDigest);
                        byte[] hash = row.hash();
                        byte[] digest =
                                Ledger.recordsDigest().bytes("record", hash).value();
                        byte[] entryHash = Ledger.entryHash(
                                site.value(), entry, at, author.account().value(), "form", 1, digest);
                        entries.add(
                                site.value(), entry, at, at, author.account().value(), "form", 1, digest, entryHash);
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
                        if (content != null) {
                            hidden.add(site.value(), record, salt, content);
                        }
                    }
                    entries.flush();
                    records.flush();
                    hidden.flush();
                }));
        while (SiteBinding.in(site, () -> sealer.seal(site)) > 0) {
            // until all are linked
        }
    }

    /** Sixteen writers on one site, each record its own durable transaction; counted when sealed. Rounds take turns. */
    @Test
    void whatTheChainCostsSixteenWriters() throws Exception {
        twins();
        // two cores that sixteen writers and the database share leave the compiler little: it is done after some rounds
        for (int warming = 0; warming < WARMING; warming++) {
            round(this::tell, true);
            round(this::insertOnly, false);
        }
        List<Double> ratios = new ArrayList<>();
        for (int turn = 0; turn < ROUNDS; turn++) {
            double chained = round(this::tell, true);
            double unchained = round(this::insertOnly, false);
            ratios.add(chained / unchained);
            System.out.printf(
                    Locale.ROOT,
                    "writers: %.0f a second sealed, %.0f a second unchained, ratio %.2f%n",
                    chained,
                    unchained,
                    chained / unchained);
        }
        Collections.sort(ratios);
        double median = ratios.get(ROUNDS / 2);
        System.out.printf(Locale.ROOT, "writers: median ratio %.2f of %d rounds%n", median, ROUNDS);
        assertThat(chain.check(site).broken())
                .extracting(Chain.Broken::what)
                .doesNotContain("seal.changed", "seal.missing", "entry.missing");
        assertThat(median).isGreaterThan(0.4);
    }

    /** Tables like the ledger's, with its indexes and its foreign key. */
    private static void twins() throws SQLException {
        try (Connection owner = TestDatabase.asOwner();
                Statement sql = owner.createStatement()) {
            sql.execute("create table if not exists unchained_entry (like ledger_entry including all)");
            sql.execute(
                    "create table if not exists unchained_record (like ledger_record including all,"
                            + " foreign key (site_id, entry_id) references unchained_entry (site_id, id) deferrable initially deferred)");
        }
    }

    private double round(Runnable write, boolean sealed) throws Exception {
        long before = sealedSoFar();
        AtomicBoolean on = new AtomicBoolean(true);
        AtomicInteger written = new AtomicInteger();
        ExecutorService pool = Executors.newFixedThreadPool(WRITERS + 1);
        List<Future<?>> all = new ArrayList<>();
        long begun = System.nanoTime();
        for (int i = 0; i < WRITERS; i++) {
            all.add(pool.submit(() -> {
                while (on.get()) {
                    SiteBinding.run(site, () -> transaction.executeWithoutResult(status -> write.run()));
                    written.incrementAndGet();
                }
            }));
        }
        if (sealed) {
            all.add(pool.submit(() -> {
                while (on.get()) {
                    SiteBinding.run(site, () -> sealer.seal(site));
                    Thread.sleep(200);
                }
                return true;
            }));
        }
        Thread.sleep(ROUND.toMillis());
        on.set(false);
        for (Future<?> one : all) {
            one.get();
        }
        while (sealed && SiteBinding.in(site, () -> sealer.seal(site)) > 0) {
            // until nothing is left
        }
        double seconds = (System.nanoTime() - begun) / 1e9;
        pool.shutdown();
        return (sealed ? sealedSoFar() - before : written.get()) / seconds;
    }

    private long sealedSoFar() {
        return SiteBinding.in(
                site,
                () ->
                        transaction.execute(status -> jdbc
                                .queryForList(
                                        "select position from ledger_head where site_id = ?", Long.class, site.value())
                                .stream()
                                .findFirst()
                                .orElse(0L)));
    }

    private void tell() {
        ledger.append(
                author,
                Draft.of(new Training(Outcome.PASS, true, "1", false, null), worker, TRUE_FROM)
                        .scope("HOOD-A"));
    }

    /** The same rows without the ledger's clock, hashes or seal, into tables of the same shape. */
    private void insertOnly() {
        UUID entry = Ids.next();
        jdbc.update(
                "insert into unchained_entry (site_id, id, recorded_at, written_at, account_id, via, records, records_digest, hash)"
                        + " values (?, ?, now(), now(), ?, 'form', 1, ?, ?)",
                site.value(),
                entry,
                author.account().value(),
                new byte[32],
                new byte[32]);
        jdbc.batchUpdate(
                "insert into unchained_record (site_id, id, kind, subject, scope, true_from, recorded_at, entry_id, body, hash)"
                        + " values (?, ?, 1, ?, 'HOOD-A', '2026-01-01T10:00:00Z', now(), ?, '{\"outcome\":\"PASS\"}', ?)",
                List.<Object[]>of(new Object[] {site.value(), Ids.next(), worker.value(), entry, new byte[32]}));
    }
}
