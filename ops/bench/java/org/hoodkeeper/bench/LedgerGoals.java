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
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.Hoodkeeper;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.ledger.Ids;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.reporting.Board;
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

    /** @param rows of an import @param wanted the names of the goals to be measured */
    void run(int rows, Predicate<String> wanted) throws Exception {
        if (Stream.of("recording", "correction", "import", "heap").noneMatch(wanted)) {
            return;
        }
        String[] arguments = Stream.concat(database.arguments().stream(), Stream.of("--server.port=0"))
                .toArray(String[]::new);
        try (ConfigurableApplicationContext service = SpringApplication.run(Hoodkeeper.class, arguments)) {
            if (wanted.test("recording")) {
                recording(service);
            }
            ImportGoals imports = new ImportGoals(database, made, rows, service);
            if (wanted.test("import")) {
                imports.run();
            }
            if (wanted.test("heap")) {
                imports.heap();
            }
            // last: from then on instruments are no longer to be trusted
            if (wanted.test("correction")) {
                Beans beans = new Beans(service);
                badIndicator(beans);
                correction(beans);
            }
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

    /** What a correction needs of the service. */
    private final class Beans {

        private final SiteBoards boards;
        private final Ledger ledger;
        private final TransactionTemplate transaction;
        private final AccountId officer = new AccountId(new UUID(7, 1));

        Beans(ConfigurableApplicationContext service) {
            boards = service.getBean(SiteBoards.class);
            ledger = service.getBean(Ledger.class);
            transaction = service.getBean(TransactionTemplate.class);
        }

        /** @return rows of today's board by what they say */
        Map<String, Long> look() {
            Viewer viewer = new Viewer(made.site(), officer, Set.of(Role.OFFICER), null, null);
            AtomicReference<Board> board = new AtomicReference<>();
            SiteBinding.run(viewer.site(), () -> board.set(boards.of(viewer, Moment.of(null, false, boards.now()))));
            return board.get().rows().stream()
                    .collect(Collectors.groupingBy(
                            row -> row.glance() == null
                                    ? "nobody"
                                    : row.glance().verdict() + " " + row.glance().open(),
                            Collectors.counting()));
        }

        void tell(Draft draft) {
            SiteBinding.run(
                    made.site(),
                    () -> transaction.execute(status ->
                            ledger.append(new Author(made.site(), officer, Author.Via.FORM), draft)));
        }
    }

    /** An indicator was found out of tolerance: the sets whose flow rests on it are judged anew at the next look. */
    private void badIndicator(Beans beans) throws Exception {
        double[] seconds = new double[QuestionGoals.ROUNDS];
        Map<String, Long> before = beans.look();
        for (int i = 0; i < seconds.length; i++) {
            UUID indicator = instrument(made.site(), i % Math.max(2, made.pairs().size() / 100));
            Calibration bad = new Calibration(
                    Outcome.FAIL,
                    false,
                    new BigDecimal("1.3"),
                    new BigDecimal("2"),
                    new BigDecimal("20"),
                    new BigDecimal("1013.25"),
                    LocalDate.now(ZoneOffset.UTC).plusYears(1),
                    "found out of tolerance",
                    null);
            long begun = System.nanoTime();
            beans.tell(Draft.of(bad, new InstrumentId(indicator), Instant.now().minusSeconds(5)));
            Map<String, Long> after = beans.look();
            seconds[i] = (System.nanoTime() - begun) / 1e9;
            if (i == 0 && after.equals(before)) {
                throw new IllegalStateException("the board does not know of the bad indicator: " + after);
            }
        }
        Goal.below("a bad indicator until the board is right", "s", seconds, 5);
    }

    /** What the maker says of the commonest model was misread: everybody with a set of it is judged anew. */
    private void correction(Beans beans) throws Exception {
        double[] seconds = new double[QuestionGoals.ROUNDS];
        Map<String, Long> before = beans.look();
        for (int i = 0; i < seconds.length; i++) {
            Standing model = standing();
            ModelData read = FactJson.read(model.body(), ModelData.class);
            ModelData right = new ModelData(
                    read.name(),
                    read.type(),
                    read.classes(),
                    read.skinContact(),
                    read.sizes(),
                    read.sealRevision(),
                    new BigDecimal(i % 2 == 0 ? "250" : "180"),
                    read.flowAt(),
                    read.batteryMinutes(),
                    read.filters(),
                    read.products(),
                    read.maxWashCelsius(),
                    read.slots());
            long begun = System.nanoTime();
            beans.tell(Draft.of(right, new ModelId(model.subject()), model.from())
                    .correcting(new RecordId(model.id()), "Misread"));
            Map<String, Long> after = beans.look();
            seconds[i] = (System.nanoTime() - begun) / 1e9;
            if (i == 0 && after.equals(before)) {
                throw new IllegalStateException("the board does not know of the correction: " + after);
            }
        }
        Goal.below("a corrected model, two in five sets, until the board is right", "s", seconds, 5);
    }

    private record Standing(UUID id, UUID subject, Instant from, String body) {}

    private Standing standing() throws SQLException {
        try (Connection connection = database.superuser();
                PreparedStatement find = connection.prepareStatement("""
                        select r.id, r.subject, r.true_from, r.body from ledger_record r
                        join kit_model m on m.site_id = r.site_id and m.id = r.subject and m.code = 'H40'
                        where r.site_id = ? and r.kind = 25 and not exists (
                            select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)""")) {
            find.setObject(1, made.site().value());
            try (ResultSet row = find.executeQuery()) {
                row.next();
                return new Standing(
                        row.getObject(1, UUID.class),
                        row.getObject(2, UUID.class),
                        row.getTimestamp(3).toInstant(),
                        row.getString(4));
            }
        }
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
