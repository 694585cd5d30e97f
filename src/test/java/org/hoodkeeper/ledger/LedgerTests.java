package org.hoodkeeper.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestDatabase;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.programme.SiteRegister;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.transaction.support.TransactionTemplate;

/** A record that nobody can bend: roles, chain, order. */
@SpringBootTest
@Tag("containers")
class LedgerTests {

    private static final AtomicInteger SITES = new AtomicInteger();

    @Autowired
    Ledger ledger;

    @Autowired
    Sealer sealer;

    @Autowired
    Chain chain;

    @Autowired
    History history;

    @Autowired
    OnceOnly onceOnly;

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
                        "ledger-" + SITES.incrementAndGet() + "-"
                                + ProcessHandle.current().pid(),
                        "Ledger",
                        ZoneId.of("Europe/London"),
                        "uk")
                .id();
        author = new Author(site, new AccountId(UUID.randomUUID()), Author.Via.FORM);
    }

    @Test
    void aWearThatIsNotOverYetIsRefused() {
        Instant begun = Instant.now().minusSeconds(3600);
        Draft wear = Draft.of(new Wear(new TaskId(UUID.randomUUID()), Wear.Step.WHOLE), worker, begun)
                .item(new SetId(UUID.randomUUID()));
        assertThatThrownBy(() ->
                        in(() -> ledger.append(author, wear.until(Instant.now().plusSeconds(3600)))))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("ledger.future");
        in(() -> ledger.append(author, wear.until(Instant.now().minusSeconds(1800))));
    }

    private RecordId tell(String at) {
        return in(() -> ledger.append(author, draft(at)));
    }

    private Draft draft(String at) {
        return Draft.of(new Training(Outcome.PASS, true, "1", false, "Secret Trainer"), worker, Instant.parse(at))
                .scope("H20");
    }

    private <T> T in(Supplier<T> work) {
        return SiteBinding.in(site, () -> transaction.execute(status -> work.get()));
    }

    private int sealAll() {
        int all = 0;
        for (int linked = 1; linked > 0; all += linked) {
            linked = SiteBinding.in(site, () -> sealer.seal(site));
        }
        return all;
    }

    private Chain.Checked check() {
        return SiteBinding.in(site, () -> chain.check(site));
    }

    @Test
    void nothingIsToldOutsideOfATransaction() {
        assertThatThrownBy(() -> SiteBinding.in(site, () -> ledger.append(author, draft("2026-01-01T10:00:00Z"))))
                .isInstanceOf(org.springframework.transaction.IllegalTransactionStateException.class);
    }

    @Test
    void whatWasToldIsSealedInOrderAndVerifies() {
        tell("2026-01-01T10:00:00Z");
        tell("2026-01-02T10:00:00Z");
        sealAll();
        Chain.Checked checked = check();
        assertThat(checked.broken()).isEmpty();
        assertThat(checked.entries()).isEqualTo(2);
        assertThat(checked.unsealed()).isZero();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update ledger_record set true_from = true_from + interval '1 day'; record.changed",
                "update ledger_record set body = '{\"outcome\":\"FAIL\"}'; record.changed",
                "update ledger_record set recorded_at = recorded_at - interval '1 hour'; record.changed",
                "update ledger_private set content = '{\"trainer\":\"Other\"}'; private.changed",
                "delete from ledger_private; private.missing",
                "update ledger_entry set account_id = gen_random_uuid(); entry.changed",
                "update ledger_seal set hash = decode('00', 'hex') where position = 2; seal.changed",
                "delete from ledger_seal where position = 1; seal.missing",
                "update ledger_head set position = position - 1; head.differs",
            })
    void whateverIsChangedBehindItsBackIsFound(String line) throws SQLException {
        tell("2026-01-01T10:00:00Z");
        sealAll();
        tell("2026-01-02T10:00:00Z");
        sealAll();
        String[] parts = line.split("; ");
        asOwner(parts[0]);
        assertThat(check().broken()).extracting(Chain.Broken::what).contains(parts[1]);
    }

    @Test
    void aRemovedRecordAndAnInsertedOneAreFound() throws SQLException {
        RecordId first = tell("2026-01-01T10:00:00Z");
        sealAll();
        asOwner(
                "insert into ledger_record select site_id, gen_random_uuid(), kind, subject, item, scope, true_from, true_until,"
                        + " recorded_at, entry_id, corrects, withdrawn, source_id, body, null, hash from ledger_record");
        assertThat(check().broken()).extracting(Chain.Broken::what).contains("record.changed", "entry.changed");
        asOwner("delete from ledger_private where record_id = '" + first + "'");
        asOwner("delete from ledger_record where id = '" + first + "'");
        assertThat(check().broken()).isNotEmpty();
    }

    /** Five entries told before the sealer came are one run: each of them is named by itself. */
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "update ledger_entry set hash = sha256('x') where id = '%s'; entry.changed",
                "delete from ledger_entry where id = '%s'; entry.missing",
            })
    void anEntryWithinARunIsNamed(String statement, String what) throws SQLException {
        List<RecordId> told = tellFive();
        sealAll();
        UUID third = entryOf(told.get(2));
        asOwnerPastKeys(statement.formatted(third));
        assertThat(check().broken()).contains(new Chain.Broken(3, what, third));
        assertThat(check().broken()).extracting(Chain.Broken::position).isSubsetOf(0L, 3L);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update ledger_seal set entries = entries[2:] || entries[1:1] where position = 5",
                "update ledger_seal set marks = overlay(marks placing '\\x0000000000000000' from 9) where position = 5",
                "update ledger_seal set recorded_from = recorded_from - interval '1 hour' where position = 5",
                "update ledger_seal set recorded_until = recorded_until + interval '1 hour' where position = 5",
            })
    void aRunThatWasChangedIsFound(String statement) throws SQLException {
        tellFive();
        sealAll();
        asOwnerPastKeys(statement);
        assertThat(check().isWhole()).isFalse();
    }

    @Test
    void anEarlierHeadWithinARunIsStillFound() {
        tellFive();
        sealAll();
        List<String> apart = new ArrayList<>();
        for (int position = 1; position <= 5; position++) {
            int at = position;
            apart.add(SiteBinding.in(site, () -> chain.seal(site, at).hash()));
        }
        assertThat(apart).doesNotContainNull().doesNotHaveDuplicates();
        assertThat(apart.get(4)).isEqualTo(check().head());
    }

    private List<RecordId> tellFive() {
        List<RecordId> told = new ArrayList<>();
        for (int i = 1; i <= 5; i++) {
            told.add(tell("2026-01-0" + i + "T10:00:00Z"));
        }
        return told;
    }

    /** As whoever owns the machine can: without row security and without keys. */
    private void asOwnerPastKeys(String statement) throws SQLException {
        try (Connection owner = TestDatabase.asSuperuser();
                Statement sql = owner.createStatement()) {
            sql.execute("set session_replication_role = replica");
            assertThat(sql.executeUpdate(statement + " and site_id = '" + site + "'"))
                    .isOne();
        }
    }

    private UUID entryOf(RecordId record) throws SQLException {
        try (Connection verifier = TestDatabase.asVerifier();
                PreparedStatement query =
                        verifier.prepareStatement("select entry_id from ledger_record where id = ?")) {
            query.setObject(1, record.value());
            try (var rows = query.executeQuery()) {
                rows.next();
                return rows.getObject(1, UUID.class);
            }
        }
    }

    /** An entry and a record that were put in with right hashes, but behind the head, and a record of no entry. */
    @Test
    void whatWasPutInBehindTheHeadIsFound() throws SQLException {
        tell("2026-01-01T10:00:00Z");
        sealAll();
        tell("2026-01-02T10:00:00Z");
        assertThat(check().broken()).isEmpty();
        asOwner("update ledger_head set recorded_at = recorded_at + interval '1 hour'");
        assertThat(check().broken()).extracting(Chain.Broken::what).containsExactly("entry.inserted");
    }

    @Test
    void aChainOfManyPartsVerifiesAndNamesItsBrokenPlace() throws SQLException {
        RecordId third = null;
        for (int i = 1; i <= 5; i++) {
            RecordId told = tell("2026-01-0" + i + "T10:00:00Z");
            third = i == 3 ? told : third;
        }
        sealAll();
        Chain.Checked whole = check();
        assertThat(whole.position()).isEqualTo(5);
        assertThat(SiteBinding.in(site, () -> chain.seal(site, 5).hash())).isEqualTo(whole.head());
        assertThat(SiteBinding.in(site, () -> chain.seal(site, 6).hash())).isNull();
        asOwner("update ledger_record set scope = 'H21' where id = '" + third + "'");
        assertThat(check().broken())
                .containsExactly(new Chain.Broken(
                        3,
                        "record.changed",
                        java.util.Objects.requireNonNull(third).value()));
    }

    /** Lifts the forced row security for one statement, as only the owner of the tables can. */
    private void asOwner(String statement) throws SQLException {
        try (Connection owner = TestDatabase.asOwner();
                Statement sql = owner.createStatement()) {
            for (String table :
                    List.of("ledger_record", "ledger_entry", "ledger_private", "ledger_seal", "ledger_head")) {
                sql.execute("alter table " + table + " no force row level security");
            }
            String here = " site_id = '" + site + "'";
            sql.execute(statement.contains(" where ") ? statement + " and" + here : statement + " where" + here);
            for (String table :
                    List.of("ledger_record", "ledger_entry", "ledger_private", "ledger_seal", "ledger_head")) {
                sql.execute("alter table " + table + " force row level security");
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update ledger_record set scope = 'X'",
                "delete from ledger_record",
                "truncate ledger_record cascade",
                "update ledger_entry set via = 'form'",
                "delete from ledger_entry",
                "update ledger_private set content = '{}'",
                "delete from ledger_private",
                "update ledger_seal set position = 0",
                "update ledger_seal set entries = '{}'",
                "delete from ledger_seal",
                "delete from ledger_head",
                "update form_once set result = ''",
                "alter table ledger_record disable row level security",
                "update stored_answer set verdict = 'CLEARED'",
                "delete from stored_answer",
                "update rule_set set content = ''",
            })
    void theServiceItselfCannotChangeWhatWasTold(String statement) throws SQLException {
        tell("2026-01-01T10:00:00Z");
        try (Connection app = TestDatabase.asApp();
                Statement sql = app.createStatement()) {
            sql.execute("select set_config('hoodkeeper.site', '" + site + "', false)");
            assertThatThrownBy(() -> sql.execute(statement))
                    .hasMessageMatching("(?s).*(permission denied|must be owner).*");
        }
    }

    @Test
    void anotherSitesRecordsAreUnseenAndRefused() throws SQLException {
        tell("2026-01-01T10:00:00Z");
        try (Connection app = TestDatabase.asApp();
                Statement sql = app.createStatement()) {
            sql.execute("select set_config('hoodkeeper.site', '" + UUID.randomUUID() + "', false)");
            for (String table : List.of("ledger_record", "ledger_entry", "ledger_private", "ledger_seal")) {
                try (var rows = sql.executeQuery("select count(*) from " + table)) {
                    rows.next();
                    assertThat(rows.getInt(1)).as(table).isZero();
                }
            }
            try (PreparedStatement insert = app.prepareStatement(
                    "insert into ledger_head (site_id, position, hash, recorded_at) values (?, 0, '\\x00', now())")) {
                insert.setObject(1, site.value());
                assertThatThrownBy(insert::execute).hasMessageContaining("row-level security");
            }
        }
    }

    @Test
    void sixteenWritersAndASealerGiveOneWholeChainInTheOrderOfTelling() throws Exception {
        ExecutorService pool = Executors.newFixedThreadPool(17);
        List<Future<?>> writers = new ArrayList<>();
        for (int writer = 0; writer < 16; writer++) {
            writers.add(pool.submit(() -> {
                for (int i = 0; i < 8; i++) {
                    tell("2026-01-01T10:00:00Z");
                }
            }));
        }
        Future<?> sealing = pool.submit(() -> {
            while (!Thread.currentThread().isInterrupted() && !writers.stream().allMatch(Future::isDone)) {
                SiteBinding.in(site, () -> sealer.seal(site));
            }
        });
        for (Future<?> writer : writers) {
            writer.get();
        }
        sealing.get();
        pool.shutdown();
        sealAll();
        Chain.Checked checked = check();
        assertThat(checked.broken()).isEmpty();
        assertThat(checked.entries()).isEqualTo(128);
        assertThat(outOfOrder()).isZero();
    }

    private int outOfOrder() throws SQLException {
        try (Connection verifier = TestDatabase.asVerifier();
                PreparedStatement query = verifier.prepareStatement("""
                        select count(*) from (
                            select e.recorded_at < lag(e.recorded_at) over (order by s.position) as earlier
                            from ledger_entry e cross join lateral (select ledger_position(e.site_id, e.id) as position) s
                            where e.site_id = ?) o where earlier""")) {
            query.setObject(1, site.value());
            try (var rows = query.executeQuery()) {
                rows.next();
                return rows.getInt(1);
            }
        }
    }

    /** An entry of a writer that is still at work holds back those told after it. */
    @Test
    void nothingIsSealedAheadOfARunningWriter() throws Exception {
        ExecutorService pool = Executors.newSingleThreadExecutor();
        java.util.concurrent.CountDownLatch told = new java.util.concurrent.CountDownLatch(1);
        java.util.concurrent.CountDownLatch goOn = new java.util.concurrent.CountDownLatch(1);
        Future<?> slow = pool.submit((Callable<Object>) () -> in(() -> {
            ledger.append(author, draft("2026-01-01T10:00:00Z"));
            told.countDown();
            try {
                goOn.await();
            } catch (InterruptedException stopped) {
                Thread.currentThread().interrupt();
            }
            return true;
        }));
        told.await();
        tell("2026-01-02T10:00:00Z");
        assertThat(sealAll()).isZero();
        goOn.countDown();
        slow.get();
        pool.shutdown();
        assertThat(sealAll()).isEqualTo(2);
        assertThat(check().broken()).isEmpty();
    }

    /** A long import or a stuck connection is its own site's affair. */
    @Test
    void aWriterOfAnotherSiteHoldsNothingUp() throws Exception {
        SiteId mine = site;
        Author me = author;
        aSite();
        ExecutorService pool = Executors.newSingleThreadExecutor();
        java.util.concurrent.CountDownLatch told = new java.util.concurrent.CountDownLatch(1);
        java.util.concurrent.CountDownLatch goOn = new java.util.concurrent.CountDownLatch(1);
        Future<?> stuck = pool.submit((Callable<Object>) () -> in(() -> {
            ledger.append(author, draft("2026-01-01T10:00:00Z"));
            told.countDown();
            try {
                goOn.await();
            } catch (InterruptedException stopped) {
                Thread.currentThread().interrupt();
            }
            return true;
        }));
        told.await();
        SiteBinding.run(
                mine,
                () -> transaction.executeWithoutResult(status -> ledger.append(me, draft("2026-01-02T10:00:00Z"))));
        assertThat(SiteBinding.in(mine, () -> sealer.seal(mine))).isEqualTo(1);
        goOn.countDown();
        stuck.get();
        pool.shutdown();
        assertThat(sealAll()).isEqualTo(1);
    }

    /** A writer that no longer says anything is cut off, so that it holds up even its own site for a minute only. */
    @Test
    void aSilentWriterIsCutOffAfterAMinute() {
        assertThat(in(() -> jdbc.queryForObject("show idle_in_transaction_session_timeout", String.class)))
                .isEqualTo("1min");
    }

    @Test
    void onlyTheNewestVersionCanBeCorrectedAndAReasonIsNeeded() {
        RecordId first = tell("2026-01-01T10:00:00Z");
        assertThatThrownBy(() -> in(() ->
                        ledger.append(author, draft("2026-01-02T10:00:00Z").correcting(first, " "))))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("ledger.becauseMissing"));
        RecordId second =
                in(() -> ledger.append(author, draft("2026-01-02T10:00:00Z").correcting(first, "wrong day")));
        assertThatThrownBy(() -> in(() ->
                        ledger.append(author, draft("2026-01-03T10:00:00Z").correcting(first, "again"))))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("ledger.corrected"));
        in(() -> ledger.withdraw(author, draft("2026-01-02T10:00:00Z").correcting(second, "never happened")));
        List<History.Version> versions = in(() -> history.of(site, worker, Instant.parse("2100-01-01T00:00:00Z"), 10));
        assertThat(versions).hasSize(3).noneMatch(History.Version::isCurrent);
        assertThat(versions).extracting(History.Version::because).contains("wrong day", "never happened");
    }

    @Test
    void theSameFormIsRecordedOnce() {
        Viewer viewer = new Viewer(site, author.account(), Set.of(Role.TRAINER), null, null);
        Supplier<String> work =
                () -> ledger.append(author, draft("2026-01-01T10:00:00Z")).toString();
        OnceOnly.Done first = SiteBinding.in(site, () -> onceOnly.once(viewer, "training", "k1", List.of("a"), work));
        OnceOnly.Done second = SiteBinding.in(site, () -> onceOnly.once(viewer, "training", "k1", List.of("a"), work));
        assertThat(second.value()).isEqualTo(first.value());
        assertThat(second.again()).isTrue();
        assertThatThrownBy(
                        () -> SiteBinding.in(site, () -> onceOnly.once(viewer, "training", "k1", List.of("b"), work)))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("form.changed"));
        assertThat(in(() -> history.of(site, worker, Instant.parse("2100-01-01T00:00:00Z"), 10)))
                .hasSize(1);
    }

    @Test
    void aRefusedFormLeavesItsKeyUnused() {
        Viewer viewer = new Viewer(site, author.account(), Set.of(Role.TRAINER), null, null);
        assertThatThrownBy(() -> SiteBinding.in(
                        site,
                        () -> onceOnly.once(viewer, "training", "k2", List.of("a"), () -> {
                            throw new Refused("test.refused");
                        })))
                .isInstanceOf(Refused.class);
        OnceOnly.Done done =
                SiteBinding.in(site, () -> onceOnly.once(viewer, "training", "k2", List.of("b"), () -> "ok"));
        assertThat(done.again()).isFalse();
    }
}
