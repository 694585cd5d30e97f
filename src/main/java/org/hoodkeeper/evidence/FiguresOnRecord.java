package org.hoodkeeper.evidence;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.hoodkeeper.assessment.AirPart;
import org.hoodkeeper.assessment.ResultShelf;
import org.hoodkeeper.assessment.TaskAir;
import org.hoodkeeper.assessment.Weighed;
import org.hoodkeeper.facts.AirUnit;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;

/**
 * The limits, assessments and results of a site as known now, which the figures of a new limit or assessment must go with. Read
 * once, also for all rows of a file.
 *
 * <p>There is no way from parts of volume to mass here: that needs the substance's molar mass and the air's temperature and
 * pressure, and a limit's source says how it converts.
 */
public final class FiguresOnRecord {

    /** Results of every task, of which only the newest of a substance is asked for: there may be many thousands. */
    interface Results {

        /** @param before none for the newest of all */
        @Nullable Told<ExposureResult> newest(String substance, @Nullable Instant before);
    }

    private final List<Told<Limit>> limits;
    private final Set<String> spellings;
    private final List<Told<TaskBasis>> bases;
    private final Results results;
    private final Function<UUID, List<Told<ExposureResult>>> ofTask;
    private final Function<UUID, String> taskCode;
    private final SiteRules rules;
    private final ZoneId zone;

    /**
     * @param limits newest first, as are the others
     * @param spellings the substances with a limit on record
     * @param results of every task
     * @param ofTask the results of one task
     */
    FiguresOnRecord(
            List<Told<Limit>> limits,
            Set<String> spellings,
            List<Told<TaskBasis>> bases,
            Results results,
            Function<UUID, List<Told<ExposureResult>>> ofTask,
            Function<UUID, String> taskCode,
            SiteRules rules,
            ZoneId zone) {
        this.limits = limits;
        this.spellings = spellings;
        this.bases = bases;
        this.results = results;
        this.ofTask = ofTask;
        this.taskCode = taskCode;
        this.rules = rules;
        this.zone = zone;
    }

    /** With the limits and assessments that a file brings beside those on record. */
    public FiguresOnRecord with(List<Told<Limit>> moreLimits, List<Told<TaskBasis>> moreBases) {
        return new FiguresOnRecord(
                joined(limits, moreLimits),
                spellings,
                joined(bases, moreBases),
                results,
                ofTask,
                taskCode,
                rules,
                zone);
    }

    /** Without the record that is about to be stated anew. */
    FiguresOnRecord without(RecordId record) {
        List<Told<Limit>> left =
                limits.stream().filter(told -> !told.id().equals(record)).toList();
        return new FiguresOnRecord(
                left,
                spellings(left),
                bases.stream().filter(told -> !told.id().equals(record)).toList(),
                results,
                ofTask,
                taskCode,
                rules,
                zone);
    }

    static Set<String> spellings(List<Told<Limit>> limits) {
        return limits.stream().map(told -> String.valueOf(told.scope())).collect(Collectors.toSet());
    }

    private static <F extends Fact> List<Told<F>> joined(List<Told<F>> some, List<Told<F>> more) {
        List<Told<F>> all = new ArrayList<>(more);
        all.addAll(some);
        all.sort(Comparator.comparing((Told<F> told) -> told.from()).reversed());
        return all;
    }

    /**
     * @throws Refused {@code limit.substance.spelling} where it is on record in other capitals; {@code limit.unit.differs} from an
     *     assessment that counts while this limit does, {@code limit.unit.results} from the newest result of the substance until
     *     the next limit: what stands in another unit could not be set against it
     */
    public void require(String substance, Limit limit, Instant from) {
        requireSpelling(substance);
        List<Told<Limit>> same =
                limits.stream().filter(told -> substance.equals(told.scope())).toList();
        Instant next = next(same, from);
        for (UUID task : bases.stream().map(Told::subject).distinct().toList()) {
            List<Told<TaskBasis>> ofOne =
                    bases.stream().filter(told -> told.subject().equals(task)).toList();
            for (Told<TaskBasis> told : counting(ofOne, from, next)) {
                told.fact().exposures().stream()
                        .filter(one ->
                                one.substance().equals(substance) && !one.unit().equals(limit.unit()))
                        .findFirst()
                        .ifPresent(one -> {
                            throw new Refused(
                                    "limit.unit.differs",
                                    AirUnit.written(limit.unit()),
                                    AirUnit.written(one.unit()),
                                    substance,
                                    taskCode.apply(task));
                        });
            }
        }
        Told<ExposureResult> newest = results.newest(substance, next);
        if (newest != null && !newest.fact().unit().equals(limit.unit())) {
            throw new Refused(
                    "limit.unit.results",
                    AirUnit.written(limit.unit()),
                    AirUnit.written(newest.fact().unit()),
                    substance);
        }
    }

    /** @throws Refused {@code limit.substance.spelling} where the substance of a limit is on record in other capitals */
    void requireSpelling(String substance) {
        requireSpelling(substance, "limit.substance.spelling");
    }

    /** Two spellings would be two substances, each with half of the results. What is on record as it stands is no slip. */
    private void requireSpelling(String substance, String code) {
        if (spellings.contains(substance)) {
            return;
        }
        limits.stream()
                .map(Told::scope)
                .filter(Objects::nonNull)
                .filter(other -> other.equalsIgnoreCase(substance) && !other.equals(substance))
                .findFirst()
                .ifPresent(other -> {
                    throw new Refused(code, substance, other);
                });
    }

    /**
     * @throws Refused {@code basis.exposures.spelling} where the limit is on record in other capitals; {@code
     *     basis.exposures.unitDiffers} from a limit that counts while this assessment does; {@code
     *     basis.whyBelow.byStatistic} or {@code .byHighest} where a figure lies below what the results sampled by then say, and no
     *     reason is given. An assessment may lower a figure, which results alone never do, and so it says why. Common practice, no
     *     source
     */
    public void require(UUID task, TaskBasis basis, Instant from) {
        basis.exposures().forEach(one -> requireSpelling(one.substance(), "basis.exposures.spelling"));
        requireUnits(task, basis, from);
        if (basis.whyBelow() == null || basis.whyBelow().isBlank()) {
            requireNoneBelow(task, basis, from);
        }
    }

    /** Before the first limit of a substance that one counts, as for the results of a file. */
    private void requireUnits(UUID task, TaskBasis basis, Instant from) {
        Instant next =
                next(bases.stream().filter(told -> told.subject().equals(task)).toList(), from);
        for (TaskBasis.Exposure exposure : basis.exposures()) {
            List<Told<Limit>> same = limits.stream()
                    .filter(told -> exposure.substance().equals(told.scope()))
                    .toList();
            List<Told<Limit>> counting = counting(same, from, next);
            if (counting.isEmpty() && !same.isEmpty()) {
                counting = List.of(same.get(same.size() - 1));
            }
            counting.stream()
                    .map(Told::fact)
                    .filter(limit -> !limit.unit().equals(exposure.unit()))
                    .findFirst()
                    .ifPresent(limit -> {
                        throw new Refused(
                                "basis.exposures.unitDiffers",
                                AirUnit.written(exposure.unit()),
                                AirUnit.written(limit.unit()),
                                exposure.substance());
                    });
        }
    }

    private void requireNoneBelow(UUID task, TaskBasis basis, Instant from) {
        List<Told<ExposureResult>> begun = ofTask.apply(task).stream()
                .filter(told -> !told.from().isAfter(from))
                .toList();
        TaskAir.weighed(basis, begun, new ResultShelf(begun), rules.at(from), zone).stream()
                .filter(Weighed::isBelow)
                .findFirst()
                .ifPresent(below -> {
                    throw new Refused(
                            below.origin() == AirPart.Origin.RESULTS
                                    ? "basis.whyBelow.byStatistic"
                                    : "basis.whyBelow.byHighest",
                            below.substance(),
                            below.value(),
                            AirUnit.written(below.unit()),
                            below.stated() == null ? null : below.stated().value());
                });
    }

    /** When the next of them begins; none where nothing follows. */
    private static <F extends Fact> @Nullable Instant next(List<Told<F>> same, Instant from) {
        return same.stream()
                .map(Told::from)
                .filter(begins -> begins.isAfter(from))
                .min(Comparator.naturalOrder())
                .orElse(null);
    }

    /** The one that stands at an instant, and those that begin from then until another: newest first. */
    private static <F extends Fact> List<Told<F>> counting(List<Told<F>> same, Instant from, @Nullable Instant until) {
        List<Told<F>> counting = new ArrayList<>();
        for (Told<F> told : same) {
            if (until != null && !told.from().isBefore(until)) {
                continue;
            }
            counting.add(told);
            if (!told.from().isAfter(from)) {
                break;
            }
        }
        return counting;
    }
}
