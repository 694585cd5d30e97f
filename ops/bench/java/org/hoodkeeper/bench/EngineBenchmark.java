package org.hoodkeeper.bench;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.Dossier;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.programme.BenchSite;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.reporting.BenchFiles;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The engine alone: full questions with all reasons, window and clear-by over a thousand files with five years of records,
 * half of them with lapses, many with corrections.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(2)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class EngineBenchmark {

    private static final int FILES = 1_000;

    private Question[] questions = new Question[0];
    private Dossier[] dossiers = new Dossier[0];
    private int next;

    @Setup
    public void files() throws IOException {
        Site site = BenchSite.of("engine");
        BenchFiles files = new BenchFiles(site);
        Instant end = Instant.parse("2026-11-25T12:00:00Z");
        Instant start = end.minus(Duration.ofDays(7L * Size.WEEKS));
        AtomicLong ids = new AtomicLong();
        Size size = new Size("engine", FILES, 80L * FILES, 0, 7);
        Ground ground = new Ground(site.id(), start, FILES, at -> new UUID(1, ids.incrementAndGet()));
        List<Pair> pairs = new ArrayList<>();
        for (int i = 0; i < FILES; i++) {
            pairs.add(new Pair(
                    i,
                    new WorkerId(new UUID(2, i)),
                    new SetId(new UUID(3, i)),
                    ground,
                    size));
        }
        Generator.tell(
                (at, via, drafts, withdrawal) -> drafts.stream()
                        .map(draft -> files.tell(at, draft, withdrawal))
                        .toList(),
                ground,
                pairs,
                size,
                start,
                end);
        files.close();
        Instant from = end.plusSeconds(3_600);
        questions = new Question[FILES];
        dossiers = new Dossier[FILES];
        for (Pair pair : pairs) {
            questions[pair.index] = Question.ofSet(
                    site.id(),
                    pair.worker,
                    pair.task,
                    pair.set,
                    new Interval(from, from.plus(Duration.ofHours(4))),
                    end);
            dossiers[pair.index] = files.dossier(
                    pair.worker,
                    pair.task,
                    pair.set,
                    Generator.label(pair.index),
                    ground.models.get(pair.model),
                    pair.model);
        }
    }

    @Benchmark
    public Answer question() {
        next = next + 1 == FILES ? 0 : next + 1;
        return Assessment.judge(questions[next], dossiers[next]);
    }
}
