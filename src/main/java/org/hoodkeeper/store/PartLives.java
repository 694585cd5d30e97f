package org.hoodkeeper.store;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.hoodkeeper.calculation.life.KaplanMeier;
import org.hoodkeeper.calculation.life.Life;
import org.hoodkeeper.calculation.life.ReplacementDue;
import org.hoodkeeper.calculation.life.WeibullLife;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.calculation.parts.PrintedMark;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.SiteRegister;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * How long parts of a place last, and how old the fitted ones are. A part's life ends with the first fault found at its place; one
 * that is still in, or was changed while it was good, would have lasted longer. A part that came with a set has no first day on
 * record and is left out.
 */
@Service
@Transactional(readOnly = true)
public class PartLives {

    private static final int MOST = 50_000;
    private static final double SECONDS_A_DAY = 86_400;

    private final PartHistory parts;
    private final History history;
    private final SiteRegister sites;

    PartLives(PartHistory parts, History history, SiteRegister sites) {
        this.parts = parts;
        this.history = history;
        this.sites = sites;
    }

    /** In what a life is counted. */
    public enum Unit {
        WEARS,
        DAYS
    }

    /** How the parts of one lot fared; an empty lot is one not on record. */
    public record OfLot(String lot, int parts, int failed) {}

    /**
     * @param lives each part that was worn, or was in for some time
     * @param leftOut parts without a wear
     * @param survival by length
     * @param fit none where nothing can be fitted: fewer failures than {@link WeibullLife#FEWEST}, or all at one length
     * @param lots those with most failures first
     */
    public record Lived(
            List<Life> lives,
            int leftOut,
            KaplanMeier survival,
            @Nullable WeibullLife fit,
            List<OfLot> lots) {

        public int failed() {
            return (int)
                    lives.stream().filter(life -> life.end() == Life.End.FAILED).count();
        }

        public int stillGood() {
            return lives.size() - failed();
        }

        public WeibullLife.Advice advice() {
            return fit == null ? WeibullLife.Advice.TOO_FEW : fit.advice();
        }
    }

    /** Every place of which a part was ever fitted. */
    public Set<String> places(SiteId site, Instant now) {
        return parts.ofAll(site, now).fittings().stream()
                .map(Fitting::place)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** @param part and {@code lot} none for any */
    public Lived of(SiteId site, String place, @Nullable String part, @Nullable String lot, Unit unit, Instant now) {
        List<Fitting> fittings = parts.ofAll(site, now).fittings().stream()
                .filter(fitting -> fitting.place().equals(place)
                        && (part == null || part.equals(fitting.part()))
                        && (lot == null || PrintedMark.same(lot, fitting.lot()))
                        && !fitting.from().isAfter(now))
                .toList();
        Map<SetId, List<Instant>> faults = faults(site, place, fittings, now);
        List<Life> lives = new ArrayList<>();
        Map<String, int[]> lots = new TreeMap<>();
        int leftOut = 0;
        for (PartHistory.Stay stay : parts.stays(site, fittings, now)) {
            Fitting fitting = stay.fitting();
            Instant failed = failed(fitting, faults.getOrDefault(fitting.set(), List.of()));
            double length = length(stay, failed, unit, now);
            if (length <= 0) {
                leftOut++;
                continue;
            }
            lives.add(new Life(length, failed == null ? Life.End.STILL_GOOD : Life.End.FAILED));
            int[] count = lots.computeIfAbsent(fitting.lot() == null ? "" : fitting.lot(), any -> new int[2]);
            count[0]++;
            count[1] += failed == null ? 0 : 1;
        }
        return new Lived(lives, leftOut, KaplanMeier.of(lives), fit(lives), lots(lots));
    }

    private static List<OfLot> lots(Map<String, int[]> counts) {
        List<OfLot> lots = new ArrayList<>();
        counts.forEach((lot, count) -> lots.add(new OfLot(lot, count[0], count[1])));
        lots.sort(Comparator.comparing(OfLot::failed).reversed());
        return lots;
    }

    /** Too few say nothing, and lives of one length have no shape. */
    private static @Nullable WeibullLife fit(List<Life> lives) {
        long failures =
                lives.stream().filter(life -> life.end() == Life.End.FAILED).count();
        long lengths = lives.stream().map(Life::length).distinct().count();
        return failures < WeibullLife.FEWEST || lengths < 2 ? null : WeibullLife.of(lives);
    }

    private static double length(PartHistory.Stay stay, @Nullable Instant failed, Unit unit, Instant now) {
        Instant out = stay.fitting().until();
        Instant end = failed != null ? failed : out == null ? now : out;
        if (unit == Unit.DAYS) {
            return Duration.between(stay.fitting().from(), end).getSeconds() / SECONDS_A_DAY;
        }
        return stay.wears().stream()
                .filter(worn -> worn.from().isBefore(end)
                        && !worn.from().isBefore(stay.fitting().from()))
                .count();
    }

    /** A fault found in the very moment of the change is that of the part that came out. */
    private static @Nullable Instant failed(Fitting fitting, List<Instant> faults) {
        Instant until = fitting.until();
        return faults.stream()
                .filter(at -> at.isAfter(fitting.from()) && (until == null || !at.isAfter(until)))
                .min(Comparator.naturalOrder())
                .orElse(null);
    }

    private Map<SetId, List<Instant>> faults(SiteId site, String place, List<Fitting> fittings, Instant now) {
        Map<SetId, List<Instant>> faults = new HashMap<>();
        Set<SetId> sets = fittings.stream().map(Fitting::set).collect(Collectors.toCollection(HashSet::new));
        for (History.Version version : history.ofEach(
                site, sets.stream().map(SetId::value).toList(), Set.of(Kind.DEFECT, Kind.PRE_USE_CHECK), now, MOST)) {
            if (version.isCurrent() && isOf(place, version.told())) {
                faults.computeIfAbsent(new SetId(version.told().subject()), any -> new ArrayList<>())
                        .add(version.told().from());
            }
        }
        return faults;
    }

    private static boolean isOf(String place, Told<?> told) {
        if (told.fact() instanceof Defect defect) {
            return defect.step() == Defect.Step.FOUND && place.equals(defect.part());
        }
        return told.fact() instanceof PreUseCheck check
                && check.items().entrySet().stream()
                        .anyMatch(item -> item.getValue() == Outcome.FAIL
                                && Fault.of(item.getKey()).isAt(place));
    }

    /** From which day a part's age is counted. */
    public enum AgeFrom {
        MADE,
        /** The first fit of the very part, known by its serial: it is at least so old. */
        FIRST_FITTED,
        UNKNOWN
    }

    /**
     * @param since the day of which the age is counted; none where unknown
     * @param months whole months since then
     * @param due the limit that comes first; none where the model sets none
     */
    public record Age(
            AgeFrom from,
            @Nullable LocalDate since,
            long months,
            @Nullable ReplacementDue due,
            boolean isOver) {}

    /** By place, of what is in the set at an instant. @param model none where nothing is on record of it */
    public Map<String, Age> ages(
            SiteId site, SetId set, List<Fitting> in, @Nullable ModelData model, Instant at, Instant now) {
        ZoneId zone = sites.get(site).zone();
        LocalDate today = Days.of(at, zone);
        List<Instant> washes = history.of(site, set, Set.of(Kind.CLEANING), now, MOST).stream()
                .filter(version -> version.isCurrent()
                        && version.told().fact() instanceof Cleaning cleaning
                        && cleaning.method() != Cleaning.Method.WIPE
                        && !version.told().from().isAfter(at))
                .map(version -> version.told().from())
                .toList();
        Map<String, Age> ages = new HashMap<>();
        for (Fitting fitting : in) {
            ages.put(fitting.place(), age(site, fitting, model, washes, today, zone, now));
        }
        return ages;
    }

    private Age age(
            SiteId site,
            Fitting fitting,
            @Nullable ModelData model,
            List<Instant> washes,
            LocalDate today,
            ZoneId zone,
            Instant now) {
        LocalDate first = firstFitted(site, fitting, zone, now);
        ModelData.Slot slot = model == null
                ? null
                : model.slots().stream()
                        .filter(one -> one.name().equals(fitting.place()))
                        .findFirst()
                        .orElse(null);
        PartCare care = slot == null ? null : slot.care();
        int washed =
                (int) washes.stream().filter(one -> one.isAfter(fitting.from())).count();
        // what a model says of life counts from manufacture, as the answer at the gate does
        ReplacementDue due = ReplacementDue.of(
                        new ReplacementDue.Known(
                                fitting.madeOn(),
                                first,
                                fitting.serial() != null,
                                null,
                                slot == null ? null : slot.lifeMonths(),
                                ReplacementDue.LifeFrom.MADE,
                                0,
                                null,
                                0,
                                null,
                                washed,
                                care == null ? null : care.cycles(),
                                null),
                        today,
                        0)
                .stream()
                .findFirst()
                .orElse(null);
        LocalDate since = fitting.madeOn() != null ? fitting.madeOn() : first;
        AgeFrom from = fitting.madeOn() != null ? AgeFrom.MADE : first == null ? AgeFrom.UNKNOWN : AgeFrom.FIRST_FITTED;
        return new Age(
                from,
                since,
                since == null ? 0 : ChronoUnit.MONTHS.between(since, today),
                due,
                due != null && due.isOver(today));
    }

    /** None without a serial: another part of the same lot may have been the one first fitted then. */
    private @Nullable LocalDate firstFitted(SiteId site, Fitting fitting, ZoneId zone, Instant now) {
        if (fitting.serial() == null) {
            return null;
        }
        return parts.where(site, new PartHistory.Mark(fitting.part(), null, fitting.serial()), now).stream()
                .map(stay -> stay.fitting().from())
                .min(Comparator.naturalOrder())
                .map(at -> Days.of(at, zone))
                .orElse(null);
    }
}
