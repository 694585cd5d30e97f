package org.hoodkeeper.bench;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.lang.management.MemoryUsage;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Enumeration;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.IntFunction;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.exchange.FileKind;
import org.hoodkeeper.exchange.ImportJob;
import org.hoodkeeper.exchange.Imports;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * Files of mixed kinds: first with one row in a hundred that is refused, so that nothing of it is recorded, then put right, until
 * the last row is sealed. Both passes count.
 */
final class ImportGoals {

    private static final Duration PATIENCE = Duration.ofMinutes(60);
    private static final int MILLIONS = 1_000_000;

    private final BenchDatabase database;
    private final Generator.Made made;
    private final int rows;
    private final Imports imports;
    private final FlowChecks checks;
    private final Viewer viewer;
    /** Those whose set has a flow. */
    private final List<Pair> blown;
    private int batch;

    ImportGoals(BenchDatabase database, Generator.Made made, int rows, ConfigurableApplicationContext service) {
        this.database = database;
        this.made = made;
        this.rows = rows;
        this.imports = service.getBean(Imports.class);
        this.checks = service.getBean(FlowChecks.class);
        this.viewer = new Viewer(
                made.site(), new AccountId(new UUID(7, 1)), Set.of(Role.OFFICER, Role.STOREKEEPER), null, null);
        this.blown = made.pairs().stream()
                .filter(pair -> !Set.of("M20", "F40").contains(pair.model))
                .toList();
    }

    void run() throws Exception {
        double[] perSecond = new double[QuestionGoals.ROUNDS];
        double[] usual = new double[QuestionGoals.ROUNDS];
        double[] meanwhile = new double[QuestionGoals.ROUNDS];
        send(Math.min(rows, 1_000));
        for (int round = 0; round < perSecond.length; round++) {
            usual[round] = bystander(new AtomicBoolean(), 40);
            AtomicBoolean over = new AtomicBoolean();
            double[] took = new double[1];
            Thread beside = new Thread(() -> took[0] = unchecked(() -> bystander(over, Integer.MAX_VALUE)));
            beside.start();
            long begun = System.nanoTime();
            send(rows);
            perSecond[round] = 3 * (rows / 3) / ((System.nanoTime() - begun) / 1e9);
            over.set(true);
            beside.join();
            if (took[0] == 0) {
                throw new IllegalStateException("the bystander could not record");
            }
            meanwhile[round] = took[0];
        }
        Goal.above(
                "import of " + rows + " rows, first with 1 % refused and then right, to sealed", "rows/s", perSecond, 5_000);
        Goal.atMost("a bystander's flow check during an import", "ms", meanwhile, usual, 3);
    }

    /**
     * What is left by collections, as they tell themselves: what was thrown away while one looks counts the more the oftener one
     * looks. In a pass of its own, since collecting takes time. Of millions of rows one round is measured: it takes the better part
     * of an hour.
     */
    void heap() throws Exception {
        int few = Math.max(300, rows / 50);
        int rounds = rows < MILLIONS ? QuestionGoals.ROUNDS : 1;
        double[] large = new double[rounds];
        double[] small = new double[rounds];
        send(few);
        for (int round = 0; round < rounds; round++) {
            small[round] = highest(() -> send(few));
            large[round] = highest(() -> send(rows));
        }
        Goal.atMost("import, highest heap held, " + rows + " rows against " + few, "MB", large, small, 1.1);
        if (rows < 5 * MILLIONS) {
            Goal.notMeasured("import, highest heap held, 5 000 000 rows against 100 000", "asked for with --rows 5000000 --only heap");
        }
    }

    private double highest(Doing doing) throws Exception {
        AtomicLong highest = new AtomicLong();
        AtomicBoolean over = new AtomicBoolean();
        Thread watch = new Thread(() -> {
            while (!over.get()) {
                System.gc();
                highest.accumulateAndGet(left(), Math::max);
                pause(rows < MILLIONS ? 300 : 1_500);
            }
        });
        watch.start();
        doing.run();
        over.set(true);
        watch.join();
        return highest.get() / 1e6;
    }

    /** Bytes in use at the end of the last collection of each pool. */
    private static long left() {
        long left = 0;
        for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
            MemoryUsage usage = pool.getType() == MemoryType.HEAP ? pool.getCollectionUsage() : null;
            left += usage == null ? 0 : usage.getUsed();
        }
        return left;
    }

    /** Three files of a third each, refused and then right, and until all of it is sealed. */
    private void send(int count) throws Exception {
        int third = count / 3;
        String run = "B" + Instant.now().getEpochSecond() + "-" + batch++;
        Instant end = Instant.now().truncatedTo(ChronoUnit.MINUTES).minus(Duration.ofHours(2));
        for (boolean right : new boolean[] {false, true}) {
            send(FileKind.WEARS, right, third, "source_id,worker,set,task,from,until,step", n -> {
                Pair pair = pair(n);
                // four wears a day: nobody brings in a million of one day, and the background looks at a day at a time
                Instant from = end.minus(Duration.ofHours(6L * (n / made.pairs().size()))).minusSeconds(60);
                return "w" + run + n + "," + worker(right, n, pair) + "," + Generator.label(pair.index) + ","
                        + Generator.taskCode(pair.taskNumber()) + "," + from + "," + from.plusSeconds(30) + ",whole";
            });
            send(
                    FileKind.CLEANINGS,
                    right,
                    third,
                    "source_id,set,at,method,product,strength,strength_basis,wet_seconds,celsius",
                    n -> "c" + run + n + "," + set(right, n) + "," + end.minusSeconds(n)
                            + ",wash-and-disinfect,OX-4,1000,ppm available chlorine,150,38");
            send(
                    FileKind.FLOW_CHECKS,
                    right,
                    third,
                    "source_id,set,at,reading,instrument,celsius,hectopascals",
                    n -> "f" + run + n + "," + blown(right, n) + "," + end.minusSeconds(n) + ",190,FI-"
                            + n % Math.max(2, made.pairs().size() / 100) + ",20,1013.2");
        }
        sealed();
    }

    private Pair pair(int n) {
        return made.pairs().get(n % made.pairs().size());
    }

    private static boolean isWrong(boolean right, int n) {
        return !right && n % 100 == 50;
    }

    private static String worker(boolean right, int n, Pair pair) {
        return isWrong(right, n) ? "nobody" : Generator.number(pair.index);
    }

    private String set(boolean right, int n) {
        return isWrong(right, n) ? "nothing" : Generator.label(pair(n).index);
    }

    private String blown(boolean right, int n) {
        return isWrong(right, n) ? "nothing" : Generator.label(blown.get(n % blown.size()).index);
    }

    private void send(FileKind kind, boolean right, int count, String head, IntFunction<String> line) {
        SiteBinding.run(made.site(), () -> {
            UUID id = imports.start(viewer, kind, ImportJob.Aim.RECORD, "bench.csv", content(count, head, line));
            ImportJob job = imports.await(viewer, id, PATIENCE);
            boolean asExpected = right
                    ? job.state() == ImportJob.State.RECORDED && job.recorded() == count
                    : job.state() == ImportJob.State.REFUSED && job.refused() == (count + 49) / 100;
            if (!asExpected) {
                throw new IllegalStateException("the import came out otherwise: " + job + " "
                        + imports.refusals(viewer, id).stream().limit(3).toList());
            }
        });
    }

    private static InputStream content(int count, String head, IntFunction<String> line) {
        return new SequenceInputStream(new Enumeration<>() {
            private int row = -1;

            @Override
            public boolean hasMoreElements() {
                return row < count;
            }

            @Override
            public InputStream nextElement() {
                String text = row < 0 ? head : line.apply(row);
                row++;
                return new ByteArrayInputStream((text + "\n").getBytes(StandardCharsets.UTF_8));
            }
        });
    }

    private void sealed() throws Exception {
        try (Connection connection = database.superuser();
                PreparedStatement open = connection.prepareStatement("""
                        select exists (select 1 from ledger_entry e where e.site_id = ? and ledger_position(e.site_id, e.id) is null
                            and e.via = 'import' and e.recorded_at > now() - interval '1 hour')""")) {
            open.setObject(1, made.site().value());
            while (true) {
                try (ResultSet row = open.executeQuery()) {
                    row.next();
                    if (!row.getBoolean(1)) {
                        return;
                    }
                }
                pause(50);
            }
        }
    }

    /** @return the median of flow checks told one by one, milliseconds */
    private double bystander(AtomicBoolean over, int most) throws Exception {
        List<Double> took = new ArrayList<>();
        InstrumentId instrument = instrument();
        for (int n = 0; n < most && !over.get(); n++) {
            Pair pair = blown.get(n * 7 % blown.size());
            long begun = System.nanoTime();
            SiteBinding.run(
                    made.site(),
                    () -> checks.record(
                            new Author(made.site(), viewer.account(), Author.Via.FORM),
                            pair.set,
                            new FlowChecks.Reading(
                                    new BigDecimal("190"), instrument, new BigDecimal("20"), new BigDecimal("1013.2")),
                            Instant.now().minusSeconds(5),
                            null));
            took.add((System.nanoTime() - begun) / 1e6);
            pause(20);
        }
        double[] all = took.stream().mapToDouble(Double::doubleValue).toArray();
        Arrays.sort(all);
        return all[all.length / 2];
    }

    private InstrumentId instrument() throws Exception {
        try (Connection connection = database.superuser();
                PreparedStatement find = connection.prepareStatement(
                        "select id from kit_instrument where site_id = ? order by code desc limit 1")) {
            find.setObject(1, made.site().value());
            try (ResultSet row = find.executeQuery()) {
                row.next();
                return new InstrumentId(row.getObject(1, UUID.class));
            }
        }
    }

    @FunctionalInterface
    private interface Doing {
        void run() throws Exception;
    }

    @FunctionalInterface
    private interface Measuring {
        double run() throws Exception;
    }

    private static double unchecked(Measuring measuring) {
        try {
            return measuring.run();
        } catch (Exception failed) {
            throw new IllegalStateException(failed);
        }
    }

    private static void pause(int millis) {
        try {
            TimeUnit.MILLISECONDS.sleep(millis);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }
}
