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
            bytes(database, made.records());
            starts(database, log, first);
            try (Service service = Service.start(database.arguments(), log)) {
                measure(database, service, made, options);
            }
            new LedgerGoals(database, made).run();
            EngineGoal.run();
        }
        System.exit(0);
    }

    private static void measure(BenchDatabase database, Service service, Generator.Made made, Options options)
            throws Exception {
        Guest officer = Guest.signIn(service.url(), CODE + "-officer");
        new BoardGoals(database, officer, CODE, made.site()).run();
        Instant from = Instant.now().plusSeconds(3_600).truncatedTo(ChronoUnit.SECONDS);
        QuestionGoals.Asked asked = new QuestionGoals.Asked(CODE, made.site(), made.pairs(), from);
        QuestionGoals questions = new QuestionGoals(database, service, options.times());
        questions.run(asked);
        questions.buffers(asked);
        keepPlan(database, asked);
        new WorkerPages(service, CODE, made.pairs()).run();
        if (options.growth()) {
            long records = Math.min(10 * options.records(), 2_500L * options.workers());
            Generator.Made large = make(database, new Size(TENFOLD, options.workers(), records, 10_000, 7));
            questions.growth(asked, new QuestionGoals.Asked(TENFOLD, large.site(), large.pairs(), from));
        } else {
            Goal.notMeasured("question, history × 10", "asked for with --growth");
        }
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
    }

    private static void starts(BenchDatabase database, Path log, Service first) throws Exception {
        double[] seconds = new double[3];
        for (int i = 0; i < seconds.length; i++) {
            Service again = Service.start(database.arguments(), log);
            seconds[i] = again.startTook().toMillis() / 1000.0;
            again.close();
        }
        Goal.below("start on kept data, " + System.getProperty("java.version"), "s", seconds, 12);
        Goal.below("first start", "s", new double[] {first.startTook().toMillis() / 1000.0}, 60);
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

    record Options(int workers, long records, int times, Path folder, boolean keep, boolean growth) {

        static Options of(String[] arguments) {
            List<String> given = List.of(arguments);
            return new Options(
                    Integer.parseInt(value(given, "--workers", "20000")),
                    Long.parseLong(value(given, "--records", "5000000")),
                    Integer.parseInt(value(given, "--times", "1000")),
                    Path.of(value(given, "--folder", "target/bench")),
                    given.contains("--keep"),
                    given.contains("--growth"));
        }

        private static String value(List<String> given, String name, String otherwise) {
            int at = given.indexOf(name);
            return at < 0 ? otherwise : given.get(at + 1);
        }
    }
}
