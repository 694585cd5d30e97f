package org.hoodkeeper.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.hoodkeeper.database.BenchDatabase;

/**
 * The packaged jar on kept data, from the command to the first answered question: on this Java, and on the newest one with a
 * cache of classes that a first run on it had loaded.
 */
final class StartGoals {

    private static final Path NEWEST =
            Path.of(System.getProperty("bench.newest", "/usr/lib/jvm/temurin-25-jdk-amd64"), "bin", "java");

    private final BenchDatabase database;
    private final Path folder;
    private final Path log;
    private final Generator.Made made;
    private final String code;

    StartGoals(BenchDatabase database, Path folder, Path log, Generator.Made made, String code) {
        this.database = database;
        this.folder = folder.toAbsolutePath();
        this.log = log;
        this.made = made;
        this.code = code;
    }

    void run(Service first) throws Exception {
        Goal.below("first start", "s", new double[] {first.startTook().toMillis() / 1000.0}, 60);
        List<String> cached = cached();
        double[] usual = new double[QuestionGoals.ROUNDS];
        double[] quick = new double[QuestionGoals.ROUNDS];
        for (int round = 0; round < usual.length; round++) {
            usual[round] = seconds(Service.program());
            quick[round] = cached.isEmpty() ? 0 : seconds(cached);
        }
        Goal.below("second start to the first answer, Java " + System.getProperty("java.version"), "s", usual, 12);
        if (cached.isEmpty()) {
            Goal.notMeasured(
                    "second start to the first answer, newest Java with a cache of classes",
                    "needs the packaged jar and " + NEWEST);
        } else {
            Goal.atMost(
                    "second start to the first answer, newest Java with a cache of classes", "s", quick, usual, 0.5);
        }
    }

    private double seconds(List<String> program) throws Exception {
        long begun = System.nanoTime();
        try (Service service = Service.start(program, database.arguments(), log)) {
            ask(service);
            return (System.nanoTime() - begun) / 1e9;
        }
    }

    private void ask(Service service) throws Exception {
        Instant from = Instant.now().plusSeconds(3_600).truncatedTo(ChronoUnit.SECONDS);
        String answer = new Asks(service.url(), code, from).ask(made.pairs().get(0));
        if (!answer.contains("verdict")) {
            throw new IllegalStateException("no answer: " + answer);
        }
    }

    /** The jar laid out in files, since a cache of classes does not reach into a jar in a jar; empty where it cannot be had. */
    private List<String> cached() throws Exception {
        List<String> given = Service.program();
        String jar = given.get(given.size() - 1);
        Path java = NEWEST;
        if (!jar.endsWith(".jar") || !Files.isExecutable(java)) {
            return List.of();
        }
        Path laid = folder.resolve("laid-out");
        if (!Files.isDirectory(laid)) {
            call(List.of(
                    java.toString(), "-Djarmode=tools", "-jar", jar, "extract", "--destination", laid.toString()));
        }
        Path main;
        try (Stream<Path> files = Files.list(laid)) {
            main = files.filter(file -> file.toString().endsWith(".jar")).findFirst().orElseThrow();
        }
        Path cache = folder.resolve("classes.aot");
        Files.deleteIfExists(cache);
        List<String> training = List.of(
                java.toString(), "-Xmx512m", "-XX:AOTCacheOutput=" + cache, "-jar", main.toString());
        try (Service trained = Service.start(training, database.arguments(), log)) {
            ask(trained);
        }
        List<String> program = new ArrayList<>(
                List.of(java.toString(), "-Xmx512m", "-XX:AOTCache=" + cache, "-jar", main.toString()));
        return Files.exists(cache) ? program : List.of();
    }

    private void call(List<String> command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()))
                .start();
        if (!process.waitFor(2, TimeUnit.MINUTES) || process.exitValue() != 0) {
            process.destroyForcibly();
            throw new IllegalStateException(command + " failed: see " + log);
        }
    }
}
