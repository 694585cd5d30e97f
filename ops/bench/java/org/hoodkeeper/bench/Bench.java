package org.hoodkeeper.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.hoodkeeper.access.BenchPassword;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.ledger.BenchChain;
import org.hoodkeeper.ledger.Chain;
import org.hoodkeeper.reporting.SameStatements;

/** Makes a site of the size asked for, measures, and prints one line a goal. */
public final class Bench {

    private static final String CODE = "bench";
    private static final String TENFOLD = "tenfold";

    private Bench() {}

    public static void main(String[] arguments) throws Exception {
        Options options = Options.of(arguments);
        Files.createDirectories(options.folder());
        Path log = options.folder().resolve("service.log");
        try (BenchDatabase database =
                BenchDatabase.start(options.folder().resolve("data").toAbsolutePath())) {
            // the first start lays the tables and the rule sets
            Service first = Service.start(database.arguments(), log);
            first.close();
            Generator.Made made = make(database, new Size(CODE, options.workers(), options.records(), 0, 7));
            if (options.keep()) {
                System.out.println("kept in " + options.folder() + ": " + database.arguments());
                Thread.sleep(Long.MAX_VALUE);
            }
            Goal.head();
            Predicate<String> wanted = name -> options.only().isEmpty() || options.only().contains(name);
            if (wanted.test("bytes")) {
                bytes(database, made.records());
            }
            if (wanted.test("start")) {
                new StartGoals(database, options.folder(), log, made, CODE).run(first);
            }
            if (Stream.of("board", "past", "question", "worker").anyMatch(wanted)) {
                try (Service service = Service.start(database.arguments(), log)) {
                    measure(database, service, log, made, options, wanted);
                }
            }
            if (options.growth()) {
                growth(database, log, made, options);
            } else if (wanted.test("growth")) {
                Goal.notMeasured("question, history × 10", "asked for with --growth");
            }
            new LedgerGoals(database, made).run(options.rows(), wanted);
            if (wanted.test("engine")) {
                EngineGoal.run();
            }
        }
        System.exit(0);
    }

    private static void measure(
            BenchDatabase database,
            Service service,
            Path log,
            Generator.Made made,
            Options options,
            Predicate<String> wanted)
            throws Exception {
        Guest officer = Guest.signIn(service.url(), CODE + "-officer");
        if (wanted.test("board")) {
            new BoardGoals(database, officer, CODE, made.site()).run();
        }
        if (wanted.test("past")) {
            new PastBoardGoal(database, officer, CODE, made).run();
        }
        QuestionGoals.Asked asked = asked(CODE, made);
        QuestionGoals questions = new QuestionGoals(database, service, options.times());
        if (wanted.test("question")) {
            questions.run(asked);
            questions.buffers(asked);
            keepPlan(database, asked);
        }
        if (wanted.test("worker")) {
            new WorkerPages(service, database, log, CODE, made).run();
        }
    }

    /** The second site is laid while no service runs: it would begin to seal what is still being written. */
    private static void growth(BenchDatabase database, Path log, Generator.Made made, Options options)
            throws Exception {
        long records = Math.min(10 * options.records(), 2_500L * options.workers());
        Generator.Made large = make(database, new Size(TENFOLD, options.workers(), records, 10_000, 7));
        try (Service service = Service.start(database.arguments(), log)) {
            new QuestionGoals(database, service, options.times()).growth(asked(CODE, made), asked(TENFOLD, large));
        }
    }

    private static QuestionGoals.Asked asked(String code, Generator.Made made) {
        Instant from = Instant.now().plusSeconds(3_600).truncatedTo(ChronoUnit.SECONDS);
        return new QuestionGoals.Asked(code, made.site(), made.pairs(), from);
    }

    private static Generator.Made make(BenchDatabase database, Size size) throws Exception {
        Generator.Made made = new Generator(database, size).make();
        System.out.printf(
                "made %s: %,d workers, %,d records in %,d entries in %.0f s%n",
                size.code(), size.workers(), made.records(), made.entries(), made.took().toMillis() / 1000.0);
        Chain.Checked checked = BenchChain.check(database.appSource(), made.site());
        if (!checked.isWhole() || checked.unsealed() > 0) {
            throw new IllegalStateException("the generated chain is broken: " + checked);
        }
        return made;
    }

    private static void bytes(BenchDatabase database, long records) throws SQLException {
        try (Connection connection = database.superuser();
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("""
                        select sum(pg_total_relation_size(c.oid)) from pg_class c
                        where c.relname in ('ledger_record', 'ledger_private', 'ledger_entry', 'ledger_seal')""")) {
            row.next();
            Goal.below("bytes per record with entries, seals and all indexes", "B", new double[] {
                row.getDouble(1) / records
            }, 600);
        }
        try (Connection connection = database.superuser();
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("""
                        select r.relname, pg_relation_size(r.oid) from pg_class c
                        join pg_class r on r.oid = c.oid or r.oid in (select i.indexrelid from pg_index i where i.indrelid = c.oid)
                        where c.relname in ('ledger_record', 'ledger_private', 'ledger_entry', 'ledger_seal') order by 2 desc""")) {
            while (row.next()) {
                System.out.printf("  %s: %.0f B%n", row.getString(1), row.getDouble(2) / records);
            }
        }
    }

    /** Beside the query that it proves. */
    private static void keepPlan(BenchDatabase database, QuestionGoals.Asked asked) throws Exception {
        Path plans = Path.of("ops/bench/plans");
        if (Files.isDirectory(plans)) {
            try (Connection connection = database.app()) {
                SameStatements same =
                        new SameStatements(connection, asked.site(), BenchPassword.hash(CODE), asked.from());
                Files.writeString(
                        plans.resolve("question.txt"),
                        QuestionGoals.plan(same, asked.pairs().get(5)));
            }
        }
    }

    /**
     * @param times so many questions a round
     * @param rows of an import
     * @param only the goals to be measured: {@code bytes start board past question worker growth recording correction import
     *     heap engine}; all where none is named
     */
    record Options(
            int workers,
            long records,
            int times,
            int rows,
            Path folder,
            boolean keep,
            boolean growth,
            List<String> only) {

        static Options of(String[] arguments) {
            List<String> given = List.of(arguments);
            return new Options(
                    Integer.parseInt(value(given, "--workers", "20000")),
                    Long.parseLong(value(given, "--records", "5000000")),
                    Integer.parseInt(value(given, "--times", "1000")),
                    Integer.parseInt(value(given, "--rows", "30000")),
                    Path.of(value(given, "--folder", "target/bench")),
                    given.contains("--keep"),
                    given.contains("--growth"),
                    given.contains("--only") ? List.of(value(given, "--only", "").split(",")) : List.of());
        }

        private static String value(List<String> given, String name, String otherwise) {
            int at = given.indexOf(name);
            return at < 0 ? otherwise : given.get(at + 1);
        }
    }
}
