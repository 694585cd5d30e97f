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
            try (Service service = Service.start(database.arguments(), options.folder().resolve("service.log"))) {
                Asks asks = new Asks(service.url(), "bench", java.time.Instant.now().plusSeconds(3600).truncatedTo(java.time.temporal.ChronoUnit.SECONDS));
                java.util.Map<String, Integer> verdicts = new java.util.TreeMap<>();
                for (int i = 0; i < 300; i++) {
                    String body = asks.ask(made.pairs().get(i));
                    verdicts.merge(made.pairs().get(i).lapse + " " + body.replaceAll("(?s).*\"verdict\":\"([A-Z_]+)\".*", "$1"), 1, Integer::sum);
                }
                System.out.println(verdicts);
                for (int round = 0; round < 6; round++) {
                    Load.Times times = Load.closed(1, 300, hand -> n -> asks.ask(made.pairs().get(n % 1000)));
                    System.out.printf("p50 %.2f p99 %.2f ms%n", times.millis(0.5), times.millis(0.99));
                }
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
