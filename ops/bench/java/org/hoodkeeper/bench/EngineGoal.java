package org.hoodkeeper.bench;

import java.util.Collection;
import org.openjdk.jmh.profile.GCProfiler;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.VerboseMode;

/** The engine's benchmark as a line of the table. */
public final class EngineGoal {

    private EngineGoal() {}

    public static void main(String[] arguments) throws Exception {
        Goal.head();
        run();
    }

    static void run() throws Exception {
        Collection<RunResult> results = new Runner(new OptionsBuilder()
                        .include(EngineBenchmark.class.getName())
                        .addProfiler(GCProfiler.class)
                        .verbosity(VerboseMode.SILENT)
                        .jvmArgs("-Xmx512m")
                        .build())
                .run();
        for (RunResult result : results) {
            double[] perSecond = result.getBenchmarkResults().stream()
                    .flatMap(fork -> fork.getIterationResults().stream())
                    .mapToDouble(iteration -> iteration.getPrimaryResult().getScore())
                    .toArray();
            Goal.above("engine alone, full questions on one core", "questions/s", perSecond, 250_000);
            result.getSecondaryResults().forEach((name, value) -> {
                if (name.endsWith("gc.alloc.rate.norm")) {
                    Goal.below("engine, bytes per question", "B", new double[] {value.getScore()}, 1_000_000);
                }
            });
        }
    }
}
