package org.hoodkeeper.bench;

import java.math.BigDecimal;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.Hoodkeeper;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ids;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.springframework.boot.SpringApplication;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.transaction.support.TransactionTemplate;

/** Recording by eight writers on one site, and how soon the board knows of a bad indicator: on the service's own classes. */
final class LedgerGoals {

    private static final int WRITERS = 8;
    private static final int RECORDS = 2_000;

    private final BenchDatabase database;
    private final Generator.Made made;

    LedgerGoals(BenchDatabase database, Generator.Made made) {
        this.database = database;
        this.made = made;
    }

    void run() throws Exception {
        String[] arguments = java.util.stream.Stream.concat(
                        database.arguments().stream(), java.util.stream.Stream.of("--server.port=0"))
                .toArray(String[]::new);
        try (ConfigurableApplicationContext service = SpringApplication.run(Hoodkeeper.class, arguments)) {
            recording(service);
            badIndicator(service);
        }
    }

    private void recording(ConfigurableApplicationContext service) throws Exception {
        Ledger ledger = service.getBean(Ledger.class);
        TransactionTemplate transaction = service.getBean(TransactionTemplate.class);
        Author author = new Author(made.site(), new AccountId(new UUID(7, 1)), Author.Via.FORM);
        double[] ours = new double[QuestionGoals.ROUNDS];
        double[] plain = new double[QuestionGoals.ROUNDS];
        for (int round = -1; round < ours.length; round++) {
            Load.Times full = Load.closed(
                    WRITERS,
                    RECORDS,
                    hand -> n -> SiteBinding.run(
                            made.site(),
                            () -> transaction.execute(status -> ledger.append(author, check(n)))));
            Load.Times bare = Load.closed(WRITERS, RECORDS, hand -> plain());
            if (round >= 0) {
                ours[round] = full.perSecond();
                plain[round] = bare.perSecond();
            }
        }
        Goal.atLeast("recording, 8 writers, one site, sealed meanwhile", "records/s", ours, plain, 0.6);
    }

    private Draft check(int n) {
        Pair pair = made.pairs().get(n % made.pairs().size());
        return Draft.of(
                new FlowCheck(
                        new BigDecimal("190"),
                        new InstrumentId(new UUID(9, 9)),
                        new BigDecimal("20"),
                        new BigDecimal("1013.2"),
                        new BigDecimal("190"),
                        new BigDecimal("170"),
                        new BigDecimal("2"),
                        Outcome.PASS),
                pair.set,
                Instant.now().minusSeconds(5));
    }

    /** The same rows of the same size in the same tables, by plain JDBC: on another site's id, which nobody reads. */
    private Load.Work plain() throws SQLException {
        Connection connection = database.app();
        connection.setAutoCommit(false);
        UUID site = new UUID(8, 8);
        String body = "{\"celsius\":20,\"corrected\":190,\"hectopascals\":1013.2,\"instrument\":\"" + new UUID(9, 9)
                + "\",\"minimum\":170,\"outcome\":\"PASS\",\"reading\":190,\"uncertainty\":2}";
        PreparedStatement bind = connection.prepareStatement("select set_config('hoodkeeper.site', ?, true)");
        PreparedStatement entry = connection.prepareStatement("""
                insert into ledger_entry (site_id, id, recorded_at, written_at, account_id, via, records, records_digest, hash)
                values (?, ?, ?, ?, ?, 'form', 1, ?, ?)""");
        PreparedStatement record = connection.prepareStatement("""
                insert into ledger_record (site_id, id, kind, subject, true_from, recorded_at, entry_id, body, hash)
                values (?, ?, 4, ?, ?, ?, ?, ?::json, ?)""");
        byte[] hash = new byte[32];
        return n -> {
            UUID id = Ids.next();
            OffsetDateTime now = OffsetDateTime.now(ZoneOffset.UTC);
            bind.setString(1, site.toString());
            bind.execute();
            entry.setObject(1, site);
            entry.setObject(2, id);
            entry.setObject(3, now);
            entry.setObject(4, now);
            entry.setObject(5, site);
            entry.setBytes(6, hash);
            entry.setBytes(7, hash);
            entry.executeUpdate();
            record.setObject(1, site);
            record.setObject(2, Ids.next());
            record.setObject(3, made.pairs().get(n % made.pairs().size()).set.value());
            record.setObject(4, now);
            record.setObject(5, now);
            record.setObject(6, id);
            record.setString(7, body);
            record.setBytes(8, hash);
            record.executeUpdate();
            connection.commit();
        };
    }

    /** An indicator was found out of tolerance: the sets whose flow rests on it are judged anew at the next look. */
    private void badIndicator(ConfigurableApplicationContext service) throws Exception {
        SiteBoards boards = service.getBean(SiteBoards.class);
        Ledger ledger = service.getBean(Ledger.class);
        TransactionTemplate transaction = service.getBean(TransactionTemplate.class);
        SiteId site = made.site();
        AccountId officer = new AccountId(new UUID(7, 1));
        Viewer viewer = new Viewer(site, officer, Set.of(Role.OFFICER), null, null);
        look(boards, viewer);
        double[] seconds = new double[2];
        for (int i = 0; i < seconds.length; i++) {
            UUID indicator = instrument(site, i);
            Calibration bad = new Calibration(
                    Outcome.FAIL,
                    false,
                    new BigDecimal("1.3"),
                    new BigDecimal("2"),
                    new BigDecimal("20"),
                    new BigDecimal("1013.25"),
                    LocalDate.now(ZoneOffset.UTC).plusYears(1),
                    "found out of tolerance");
            long begun = System.nanoTime();
            SiteBinding.run(
                    site,
                    () -> transaction.execute(status -> ledger.append(
                            new Author(site, officer, Author.Via.FORM),
                            Draft.of(bad, new InstrumentId(indicator), Instant.now().minusSeconds(5)))));
            look(boards, viewer);
            seconds[i] = (System.nanoTime() - begun) / 1e9;
        }
        Goal.below("a bad indicator until the board is right", "s", seconds, 5);
    }

    private void look(SiteBoards boards, Viewer viewer) {
        SiteBinding.run(viewer.site(), () -> boards.of(viewer, Moment.of(null, false, boards.now())));
    }

    private UUID instrument(SiteId site, int index) throws SQLException {
        try (Connection connection = database.superuser();
                PreparedStatement find = connection.prepareStatement(
                        "select id from kit_instrument where site_id = ? order by code limit 1 offset " + index)) {
            find.setObject(1, site.value());
            try (ResultSet row = find.executeQuery()) {
                row.next();
                return row.getObject(1, UUID.class);
            }
        }
    }
}
