package org.hoodkeeper.bench;

import java.sql.Connection;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.reporting.SameBoard;

/** The board of ninety days ago as known then, to its last byte, against reading what decides by plain JDBC. */
final class PastBoardGoal {

    private final BenchDatabase database;
    private final Guest officer;
    private final String code;
    private final Generator.Made made;

    PastBoardGoal(BenchDatabase database, Guest officer, String code, Generator.Made made) {
        this.database = database;
        this.officer = officer;
        this.code = code;
        this.made = made;
    }

    void run() throws Exception {
        Instant moment = Instant.now().minus(Duration.ofDays(90)).truncatedTo(ChronoUnit.HOURS);
        List<UUID> workers =
                made.pairs().stream().map(pair -> pair.worker.value()).toList();
        List<UUID> sets = made.pairs().stream().map(pair -> pair.set.value()).toList();
        List<UUID> tasks = made.pairs().stream()
                .map(pair -> pair.task)
                .distinct()
                .map(TaskId::value)
                .toList();
        String address = "/sites/" + code + "/board?known=then&at=" + moment;
        double[] page = new double[QuestionGoals.ROUNDS];
        double[] plain = new double[QuestionGoals.ROUNDS];
        try (Connection connection = database.app()) {
            SameBoard same = new SameBoard(connection, made.site(), workers, sets, tasks);
            for (int round = -1; round < page.length; round++) {
                double full = millis(() -> page(address));
                double bare = millis(() -> same.read(moment));
                if (round >= 0) {
                    page[round] = full;
                    plain[round] = bare;
                }
            }
        }
        Goal.atMost("board, ninety days ago as known then", "ms", page, plain, 1.5);
    }

    private void page(String address) throws Exception {
        String body = officer.get(address, "text/html").body();
        if (!body.contains("W-0")) {
            throw new IllegalStateException("no board: " + body.substring(0, Math.min(400, body.length())));
        }
    }

    @FunctionalInterface
    private interface Doing {
        void run() throws Exception;
    }

    private static double millis(Doing doing) throws Exception {
        long begun = System.nanoTime();
        doing.run();
        return (System.nanoTime() - begun) / 1e6;
    }
}
