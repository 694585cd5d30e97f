package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.calculation.ExposureStatistics.Statistic;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.MedicalOutcome.WorkRate;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskBasis.Atmosphere;
import org.hoodkeeper.facts.TaskBasis.LongShift;
import org.hoodkeeper.facts.TaskBasis.Mixture;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** The exposure assessment of a task. */
public record BasisForm(
        @NotBlank @Size(max = 4000) @Nullable String exposures,
        @NotNull @Nullable Mixture mixture,
        @NotNull @Nullable Atmosphere atmosphere,
        List<InterfaceType> interfaces,
        @NotNull @Nullable WorkRate workRate,
        @Size(max = 120) @Nullable String statistic,
        @Nullable LocalDate lastDay,
        @Size(max = 2000) @Nullable String note,
        @Nullable LocalDate resultsSince,
        @Nullable BigDecimal shiftHours,
        @Nullable LongShift longShift,
        @Size(max = 2000) @Nullable String whyBelow,
        @NotBlank @Size(max = 120) @Nullable String assessor,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    public BasisForm {
        interfaces = Choice.made(interfaces);
    }

    /** What stands now, to be changed; answers on safety, the reason and the signature are left to be given again. */
    static BasisForm from(@Nullable TaskBasis standing, Show show) {
        if (standing == null) {
            return new BasisForm(
                    null, null, null, List.of(), null, null, null, null, null, null, null, null, null, null, null);
        }
        return new BasisForm(
                standing.exposures().stream()
                        .map(one -> one.substance() + "; " + show.figure(one.value()) + "; " + one.unit())
                        .collect(Collectors.joining("\n")),
                null,
                null,
                List.copyOf(standing.interfaces()),
                null,
                named(standing.statistic()).map(Statistic::name).orElse(null),
                null,
                null,
                standing.resultsSince(),
                standing.shiftHours(),
                null,
                null,
                null,
                null,
                null);
    }

    /**
     * @param substances every substance that has a limit on record
     * @throws Refused {@code basis.exposures.unknown} of another, since nothing can be set against it; {@code
     *     basis.statistic.unknown}
     */
    TaskBasis toFact(Lists lists, List<String> substances) {
        return new TaskBasis(
                lists.lines(exposures, 3, "basis.exposures.unreadable", parts -> exposure(parts, substances)),
                Objects.requireNonNull(mixture),
                Objects.requireNonNull(atmosphere),
                Set.copyOf(interfaces),
                Objects.requireNonNull(workRate),
                statistic == null ? null : requireKnown(statistic),
                lastDay,
                note,
                resultsSince,
                shiftHours,
                longShift,
                assessor,
                whyBelow);
    }

    private static String requireKnown(String typed) {
        return named(typed)
                .orElseThrow(() -> new Refused(
                        "basis.statistic.unknown",
                        typed,
                        Stream.of(Statistic.values()).map(Statistic::name).toList()))
                .name();
    }

    private static Optional<Statistic> named(@Nullable String text) {
        return Stream.of(Statistic.values())
                .filter(one -> one.name().equalsIgnoreCase(text))
                .findFirst();
    }

    private static TaskBasis.Exposure exposure(Lists.Parts parts, List<String> substances) {
        BigDecimal value = parts.figure(1);
        if (value == null) {
            throw new Refused("basis.exposures.value");
        }
        String typed = parts.text(0);
        String substance = Substances.among(substances, typed)
                .orElseThrow(() -> typed.isEmpty()
                        ? new Refused("basis.exposures.substance")
                        : new Refused("basis.exposures.unknown", typed, substances));
        return new TaskBasis.Exposure(substance, value, parts.text(2));
    }
}
