package org.hoodkeeper.exchange;

import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.hoodkeeper.database.BulkInsert;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.evidence.ExposureResults;
import org.hoodkeeper.evidence.FitTests;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Ids;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.dao.ConcurrencyFailureException;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Files on their way in. A file is read to the end in the background, each row with a report a person can act on; it is recorded
 * whole or not at all, and sending it again changes nothing. Call it with the viewer's site bound and outside of a transaction.
 */
@Service
public class Imports implements DisposableBean {

    /** How many refusals a report shows. Who mends a thousand rows sends the file again anyway. */
    public static final int SHOWN = 1_000;

    private static final Logger LOG = LoggerFactory.getLogger(Imports.class);
    private static final int ROWS_AT_ONCE = 10_000;
    private static final int TRIES = 4;
    private static final int FILES_AT_ONCE = 2;
    private static final List<String> STAGED = List.of(
            "site_id",
            "job_id",
            "row_no",
            "code",
            "person",
            "employer",
            "subject",
            "item",
            "reference",
            "scope",
            "true_from",
            "true_until",
            "source_id",
            "told_claimed",
            "body",
            "hidden",
            "unjudged",
            "record_id",
            "second_id");

    private final Jobs jobs;
    private final Shelves shelves;
    private final Comparison comparison;
    private final Promotion promotion;
    private final FitTests fitTests;
    private final ExposureResults exposureResults;
    private final JdbcTemplate jdbc;
    private final TransactionTemplate transaction;
    private final Clock clock;
    private final long largest;

    private final ExecutorService workers = Executors.newFixedThreadPool(FILES_AT_ONCE, daemon("import"));
    private final ScheduledExecutorService pulse = Executors.newSingleThreadScheduledExecutor(daemon("import-pulse"));
    private final Map<UUID, SiteId> running = new ConcurrentHashMap<>();

    Imports(
            Jobs jobs,
            Shelves shelves,
            Comparison comparison,
            Promotion promotion,
            FitTests fitTests,
            ExposureResults exposureResults,
            JdbcTemplate jdbc,
            PlatformTransactionManager transactions,
            Clock clock,
            @Value("${hoodkeeper.import.megabytes:1024}") long megabytes) {
        this.jobs = jobs;
        this.shelves = shelves;
        this.comparison = comparison;
        this.promotion = promotion;
        this.fitTests = fitTests;
        this.exposureResults = exposureResults;
        this.jdbc = jdbc;
        this.transaction = new TransactionTemplate(transactions);
        this.clock = clock;
        this.largest = megabytes * 1024 * 1024;
        pulse.scheduleWithFixedDelay(this::beat, 10, 10, TimeUnit.SECONDS);
    }

    private static java.util.concurrent.ThreadFactory daemon(String name) {
        return work -> {
            Thread thread = new Thread(work, name);
            thread.setDaemon(true);
            return thread;
        };
    }

    /** A file larger than the service takes. */
    public static final class TooLarge extends Refused {
        TooLarge(long megabytes) {
            super("exchange.file.large", megabytes);
        }
    }

    /**
     * Takes a file and begins to read it.
     *
     * @return the job's id
     * @throws Refused {@code exchange.notYours} when the viewer's roles do not bring in this file
     * @throws TooLarge when it is larger than the service takes
     */
    public UUID start(Viewer viewer, FileKind kind, ImportJob.Aim aim, @Nullable String fileName, InputStream content) {
        require(kind.mayBeBroughtBy(viewer.roles()));
        Kept file = keep(content);
        UUID job = jobs.begin(viewer.site(), kind, aim, viewer.account(), fileName, file.rows());
        Author author = new Author(viewer.site(), viewer.account(), Author.Via.IMPORT);
        work(author, job, () -> {
            try {
                read(author, job, kind, aim, file.path());
            } finally {
                delete(file.path());
            }
        });
        return job;
    }

    /**
     * Records what a look has found right.
     *
     * @throws Refused {@code exchange.job.notReady} when there is nothing to record, or somebody has begun already
     */
    public void record(Viewer viewer, UUID id) {
        ImportJob job = job(viewer, id);
        if (!jobs.step(viewer.site(), id, ImportJob.State.READY, ImportJob.State.RECORDING)) {
            throw new Refused("exchange.job.notReady");
        }
        Author author = new Author(viewer.site(), viewer.account(), Author.Via.IMPORT);
        work(author, id, () -> compareAndRecord(author, id, job.kind(), List.of(), 0, ImportJob.Aim.RECORD));
    }

    /** @throws NotFound {@code exchange.job.unknown} also for a file that the viewer's roles do not bring in */
    public ImportJob job(Viewer viewer, UUID id) {
        ImportJob job = jobs.get(viewer.site(), id);
        if (!job.kind().mayBeBroughtBy(viewer.roles())) {
            throw new NotFound("exchange.job.unknown");
        }
        return job;
    }

    /** Waits until it is over, at most so long. */
    public ImportJob await(Viewer viewer, UUID id, Duration most) {
        long end = System.nanoTime() + most.toNanos();
        ImportJob job = job(viewer, id);
        for (int pause = 5; !job.state().isOver() && System.nanoTime() < end; pause = Math.min(100, 2 * pause)) {
            try {
                TimeUnit.MILLISECONDS.sleep(pause);
            } catch (InterruptedException stopped) {
                Thread.currentThread().interrupt();
                return job;
            }
            job = job(viewer, id);
        }
        return job;
    }

    /** Why rows were refused, in the order of the file: the first {@link #SHOWN}. */
    public List<RowRefusal> refusals(Viewer viewer, UUID id) {
        job(viewer, id);
        return jobs.refusals(viewer.site(), id);
    }

    /** Labels of the sets that the file put on hold: for what a cleaning did, or since two people are said to have them. The first {@link #SHOWN}. */
    public List<String> held(Viewer viewer, UUID id) {
        job(viewer, id);
        return jobs.held(viewer.site(), id);
    }

    /** The newest that the viewer's roles may see. */
    public List<ImportJob> newest(Viewer viewer) {
        return jobs.newest(viewer.site(), 50).stream()
                .filter(job -> job.kind().mayBeBroughtBy(viewer.roles()))
                .toList();
    }

    /** Largest file taken, megabytes. */
    public long largestMegabytes() {
        return largest / 1024 / 1024;
    }

    private static void require(boolean allowed) {
        if (!allowed) {
            throw new Refused("exchange.notYours");
        }
    }

    /** @param rows as many as there are line ends outside of quotes, the header's taken off: said while the file is read */
    private record Kept(Path path, long rows) {}

    private Kept keep(InputStream content) {
        try {
            Path file = Files.createTempFile("hoodkeeper-import", ".csv");
            long size = 0;
            long lines = 0;
            boolean inQuotes = false;
            try (OutputStream out = new FileOutputStream(file.toFile())) {
                byte[] part = new byte[65_536];
                for (int read = content.read(part); read >= 0; read = content.read(part)) {
                    size += read;
                    if (size > largest) {
                        delete(file);
                        throw new TooLarge(largestMegabytes());
                    }
                    out.write(part, 0, read);
                    for (int i = 0; i < read; i++) {
                        inQuotes ^= part[i] == '"';
                        lines += part[i] == '\n' && !inQuotes ? 1 : 0;
                    }
                }
            }
            return new Kept(file, Math.max(0, lines - 1));
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    private static void delete(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException stuck) {
            LOG.warn("The temporary file {} could not be deleted", file, stuck);
        }
    }

    private void work(Author author, UUID job, Runnable steps) {
        running.put(job, author.site());
        workers.execute(() -> {
            try {
                SiteBinding.run(author.site(), steps);
            } catch (RuntimeException fault) {
                // the edge of this thread: nobody else would hear of it, and the job must not seem to run
                LOG.error("The import {} broke off", job, fault);
                SiteBinding.run(author.site(), () -> jobs.step(author.site(), job, ImportJob.State.BROKEN_OFF));
            } finally {
                running.remove(job);
            }
        });
    }

    private void beat() {
        try {
            running.values().stream()
                    .distinct()
                    .forEach(site -> SiteBinding.run(site, () -> jobs.seen(site, runningOn(site))));
        } catch (RuntimeException unreachable) {
            // a schedule that throws would stop for good; the next beat tries again
            LOG.warn("Imports could not say that they live", unreachable);
        }
    }

    private List<UUID> runningOn(SiteId site) {
        return running.entrySet().stream()
                .filter(one -> one.getValue().equals(site))
                .map(Map.Entry::getKey)
                .toList();
    }

    private void read(Author author, UUID job, FileKind kind, ImportJob.Aim aim, Path file) {
        jobs.step(author.site(), job, ImportJob.State.READING);
        List<RowRefusal> refusals = new ArrayList<>();
        long[] refusedRows = {0};
        try (CsvRows rows = new CsvRows(Files.newInputStream(file))) {
            RowReader reader = reader(author.site(), kind, rows);
            stage(author, job, kind, rows, reader, refusals, refusedRows);
        } catch (Refused wholeFile) {
            refusals.add(RowRefusal.of(rowOf(wholeFile), "", "", wholeFile));
            refusedRows[0]++;
            jobs.compared(author.site(), job, refusedRows[0], 0);
            refuse(author, job, refusals);
            return;
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
        compareAndRecord(author, job, kind, refusals, refusedRows[0], aim);
    }

    private static long rowOf(Refused wholeFile) {
        return wholeFile.arguments().length > 0 && wholeFile.arguments()[0] instanceof Long row ? row : 1;
    }

    private RowReader reader(SiteId site, FileKind kind, CsvRows rows) {
        FlowJudge flows = kind == FileKind.FLOW_CHECKS ? shelves.flows(site) : null;
        List<Told<Limit>> limits = kind == FileKind.EXPOSURE_RESULTS ? exposureResults.limits(site) : List.of();
        RowReader.Judge judge = (fact, subject, scope, from) -> {
            if (fact instanceof ExposureResult result) {
                ExposureResults.requireLimit(limits, scope, result, from);
            }
            return judged(site, flows, fact, subject, scope, from);
        };
        return new RowReader(
                kind, rows.header(), site.value(), shelves.names(site), shelves.moments(site), judge, clock.instant());
    }

    private Fact judged(
            SiteId site, @Nullable FlowJudge flows, Fact fact, UUID subject, @Nullable String scope, Instant from) {
        if (fact instanceof FlowCheck check && flows != null) {
            return flows.judge(check, subject, from);
        }
        if (fact instanceof FitTest test && scope != null) {
            return fitTests.judge(site, Variant.of(scope), test, from).test();
        }
        if (fact instanceof SiteDecision decision && scope != null) {
            shelves.checkDecision(scope, decision.value());
        }
        return fact;
    }

    private void stage(
            Author author,
            UUID job,
            FileKind kind,
            CsvRows rows,
            RowReader reader,
            List<RowRefusal> refusals,
            long[] refusedRows) {
        List<StagedRow> some = new ArrayList<>();
        long read = 0;
        long unjudged = 0;
        for (List<String> cells = rows.next(); cells != null; cells = rows.next()) {
            read++;
            List<RowRefusal> wrong = new ArrayList<>();
            StagedRow row = reader.read(rows.row(), cells, wrong);
            if (row == null) {
                refusedRows[0]++;
                wrong.stream().limit(Math.max(0, SHOWN - refusals.size())).forEach(refusals::add);
            } else {
                unjudged += row.unjudged() ? 1 : 0;
                some.add(row);
            }
            if (read % ROWS_AT_ONCE == 0) {
                put(author.site(), job, kind, some);
                some.clear();
                jobs.progress(author.site(), job, read, unjudged);
            }
        }
        put(author.site(), job, kind, some);
        jobs.readAll(author.site(), job, read, unjudged);
    }

    /** In a short transaction: a long one would hold up the sealing of everybody else's records. */
    private void put(SiteId site, UUID job, FileKind kind, List<StagedRow> some) {
        if (some.isEmpty()) {
            return;
        }
        transaction.executeWithoutResult(status -> {
            BulkInsert staged = new BulkInsert(jdbc, "import_row", STAGED);
            for (StagedRow row : some) {
                staged.add(
                        site.value(),
                        job,
                        row.row(),
                        row.code(),
                        row.person(),
                        row.employer(),
                        row.subject(),
                        row.item(),
                        row.reference(),
                        row.scope(),
                        row.from(),
                        row.until(),
                        row.sourceId(),
                        row.toldClaimed(),
                        row.body(),
                        row.hidden(),
                        row.unjudged(),
                        Ids.next(),
                        kind == FileKind.SETS && row.brandNew() ? Ids.next() : null);
            }
            staged.flush();
        });
    }

    private void compareAndRecord(
            Author author, UUID job, FileKind kind, List<RowRefusal> before, long refusedBefore, ImportJob.Aim aim) {
        for (int tries = 1; ; tries++) {
            jobs.step(author.site(), job, ImportJob.State.COMPARING);
            Comparison.Found found = comparison.compare(author.site(), job, kind);
            jobs.compared(author.site(), job, refusedBefore + found.refused(), found.already());
            List<RowRefusal> refusals = new ArrayList<>(before);
            refusals.addAll(found.refusals());
            if (!refusals.isEmpty()) {
                refuse(author, job, refusals);
                return;
            }
            if (aim == ImportJob.Aim.TRY) {
                jobs.step(author.site(), job, ImportJob.State.READY);
                return;
            }
            jobs.step(author.site(), job, ImportJob.State.RECORDING);
            try {
                promotion.promote(author, job, kind);
                jobs.clear(author.site(), job);
                return;
            } catch (DuplicateKeyException | ConcurrencyFailureException others) {
                // somebody recorded some of it at the same time: look again at what is there now
                if (tries == TRIES) {
                    throw others;
                }
            }
        }
    }

    private void refuse(Author author, UUID job, List<RowRefusal> refusals) {
        List<RowRefusal> shown = refusals.stream()
                .sorted(Comparator.comparingLong(RowRefusal::row))
                .limit(SHOWN)
                .toList();
        jobs.refuse(author.site(), job, shown);
        jobs.clear(author.site(), job);
        jobs.step(author.site(), job, ImportJob.State.REFUSED);
    }

    @Override
    public void destroy() {
        pulse.shutdownNow();
        workers.shutdown();
    }
}
