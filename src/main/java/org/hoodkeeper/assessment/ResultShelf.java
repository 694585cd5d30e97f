package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import org.hoodkeeper.calculation.ExposureStatistics;
import org.hoodkeeper.calculation.ExposureStatistics.Statistic;
import org.hoodkeeper.calculation.Sample;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * The exposure results of a task, newest first. Keeps each statistic and each air it has worked out: a board asks for the same
 * one for every person at the task.
 */
public final class ResultShelf {

    private final List<Told<ExposureResult>> results;
    private final Map<Asked, Optional<BigDecimal>> worked = new ConcurrentHashMap<>();

    private final List<TaskAirAt> airs = new CopyOnWriteArrayList<>();

    private record Asked(List<UUID> results, Statistic statistic) {}

    public ResultShelf(List<Told<ExposureResult>> results) {
        this.results = List.copyOf(results);
    }

    public List<Told<ExposureResult>> all() {
        return results;
    }

    /** The deciding figure; empty where the results are too few, or too few of them above detection. */
    Optional<BigDecimal> deciding(List<Told<ExposureResult>> of, Statistic statistic) {
        Asked asked = new Asked(of.stream().map(told -> told.id().value()).toList(), statistic);
        return worked.computeIfAbsent(asked, any -> work(of, statistic));
    }

    /** The air of the task at the instant judged; what may change it is watched. */
    TaskAirAt air(Judging judging, Told<TaskBasis> basis) {
        TaskAirAt air = kept(judging, basis);
        if (air == null) {
            air = TaskAirAt.of(judging, basis, this);
            airs.add(air);
        }
        judging.watch(air.until());
        return air;
    }

    private @Nullable TaskAirAt kept(Judging judging, Told<TaskBasis> basis) {
        for (TaskAirAt air : airs) {
            if (air.isOf(judging, basis)) {
                return air;
            }
        }
        return null;
    }

    private static Optional<BigDecimal> work(List<Told<ExposureResult>> of, Statistic statistic) {
        try {
            return Optional.of(ExposureStatistics.of(samples(of)).deciding(statistic));
        } catch (Refused tooFew) {
            return Optional.empty();
        }
    }

    public static List<Sample> samples(List<Told<ExposureResult>> results) {
        return results.stream()
                .map(told -> new Sample(
                        told.fact().value(),
                        told.fact().belowDetection() ? Sample.Detection.BELOW : Sample.Detection.DETECTED))
                .toList();
    }
}
