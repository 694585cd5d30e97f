package org.hoodkeeper.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.hoodkeeper.database.BenchDatabase;

/** Makes a site of the size asked for, measures, and prints one line a goal. */
public final class Bench {

    private Bench() {}

    public static void main(String[] arguments) throws Exception {
        Options options = Options.of(arguments);
        Files.createDirectories(options.folder());
        try (BenchDatabase database = BenchDatabase.start(options.folder().resolve("data"))) {
            migrate(database, options.folder());
            Size size = new Size("bench", options.workers(), options.records(), 0, 7);
            Generator.Made made = new Generator(database, size).make();
            System.out.printf(
                    "made %,d records in %,d entries in %.0f s%n",
                    made.records(), made.entries(), made.took().toMillis() / 1000.0);
            try (java.sql.Connection connection = database.superuser()) {
                System.out.println("chain: " + org.hoodkeeper.ledger.BenchChain.check(connection, made.site()));
            }
            if (options.keep()) {
                System.out.println("kept in " + options.folder() + ": " + database.arguments());
                Thread.sleep(Long.MAX_VALUE);
            }
        }
    }

    /** The first start lays the tables and the rule sets. */
    private static void migrate(BenchDatabase database, Path folder) throws Exception {
        Service.start(database.arguments(), folder.resolve("service.log")).close();
    }

    record Options(int workers, long records, Path folder, boolean keep) {

        static Options of(String[] arguments) {
            List<String> given = List.of(arguments);
            return new Options(
                    Integer.parseInt(value(given, "--workers", "2000")),
                    Long.parseLong(value(given, "--records", "200000")),
                    Path.of(value(given, "--folder", "target/bench")),
                    given.contains("--keep"));
        }

        private static String value(List<String> given, String name, String otherwise) {
            int at = given.indexOf(name);
            return at < 0 ? otherwise : given.get(at + 1);
        }
    }
}
