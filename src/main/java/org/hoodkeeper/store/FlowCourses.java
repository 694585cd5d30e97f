package org.hoodkeeper.store;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.calculation.AirCondition;
import org.hoodkeeper.calculation.measure.MeasurementChain;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** Flow measurements through time: of one set, and of one instrument. */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class FlowCourses {

    /** More versions than a set or an instrument gathers between two of its changes; the newest are kept. */
    private static final int MOST = 2_000;

    private final History history;
    private final Indicators indicators;
    private final SiteRegister sites;
    private final RulesAtSite rules;

    FlowCourses(History history, Indicators indicators, SiteRegister sites, RulesAtSite rules) {
        this.history = history;
        this.indicators = indicators;
        this.sites = sites;
        this.rules = rules;
    }

    /** The course of one set. @param minimum of its model now, L/min; none for a device without flow */
    public FlowCourse of(SiteId site, SetId set, @Nullable BigDecimal minimum, Instant now) {
        List<History.Version> versions = history.of(
                site,
                set,
                Set.of(Kind.FLOW_CHECK, Kind.EXAMINATION, Kind.PART_CHANGE, Kind.DEFECT, Kind.HOLD),
                now,
                MOST);
        List<Told<?>> changes = new ArrayList<>();
        for (History.Version version : versions) {
            if (version.isCurrent() && changesTheState(version.told().fact())) {
                changes.add(version.told());
            }
        }
        Collections.reverse(changes);
        return new FlowCourse(measured(site, versions, now), changes, minimum, now);
    }

    private static boolean changesTheState(Fact fact) {
        return fact instanceof PartChange
                || (fact instanceof Defect defect && defect.step() == Defect.Step.MENDED)
                || (fact instanceof Hold hold
                        && hold.why() == Hold.Why.UNDER_REPAIR
                        && hold.step() == Hold.Step.RELEASED);
    }

    /**
     * Every reading of an instrument since its last good calibration, oldest first: where the newest calibration found it out of
     * tolerance, since the one before it.
     */
    public List<MeasuredFlow> of(SiteId site, InstrumentId instrument, Instant now) {
        return by(
                site, instrument, lastGood(indicators.calibrations(site, instrument, now)), now.plusNanos(1_000), now);
    }

    /** Every reading of an instrument within a time, oldest first. @param from none for every one before the end @param until excluded */
    List<MeasuredFlow> by(SiteId site, InstrumentId instrument, @Nullable Instant start, Instant until, Instant now) {
        Instant from = start == null ? Instant.EPOCH : start;
        List<History.Version> versions = new ArrayList<>();
        versions.addAll(history.naming(site, Kind.FLOW_CHECK, "instrument", instrument, from, now, MOST));
        versions.addAll(history.naming(site, Kind.EXAMINATION, "indicator", instrument, from, now, MOST));
        versions.addAll(history.naming(site, Kind.PRE_USE_CHECK, "indicator", instrument, from, now, MOST));
        versions.removeIf(version -> !version.told().from().isBefore(until));
        return measured(site, versions, now);
    }

    private static Instant lastGood(List<Told<Calibration>> newestFirst) {
        return newestFirst.stream()
                .filter(told ->
                        told.fact().outcome() == Outcome.PASS && told.fact().asFoundInTolerance())
                .map(Told::from)
                .findFirst()
                .orElse(Instant.EPOCH);
    }

    /** What a flow check, examination or check before use measured; none where it measured no flow. */
    public @Nullable MeasuredFlow one(SiteId site, History.Version version, Instant now) {
        return Raw.of(version).map(raw -> yardsticks(site, now).judged(raw)).orElse(null);
    }

    private Yardsticks yardsticks(SiteId id, Instant now) {
        Site site = sites.get(id);
        return new Yardsticks(site, rules.knownAt(site.id(), now), now);
    }

    /** Those of some records that measured a flow, oldest first; what was corrected is left out. */
    List<MeasuredFlow> measured(SiteId siteId, Collection<History.Version> versions, Instant now) {
        Yardsticks yardsticks = yardsticks(siteId, now);
        return versions.stream()
                .filter(History.Version::isCurrent)
                .map(Raw::of)
                .flatMap(Optional::stream)
                .map(yardsticks::judged)
                .sorted(Comparator.comparing(MeasuredFlow::at)
                        .thenComparing(one -> one.version().told().recordedAt()))
                .toList();
    }

    private record Raw(
            History.Version version,
            BigDecimal shown,
            InstrumentId instrument,
            @Nullable BigDecimal celsius,
            @Nullable BigDecimal hectopascals) {

        /** Empty where nothing was measured. */
        static Optional<Raw> of(History.Version version) {
            Fact fact = version.told().fact();
            if (fact instanceof FlowCheck check) {
                return Optional.of(
                        new Raw(version, check.reading(), check.instrument(), check.celsius(), check.hectopascals()));
            }
            if (fact instanceof Examination examination) {
                return of(version, examination.reading(), examination.indicator());
            }
            return fact instanceof PreUseCheck check
                    ? of(version, check.reading(), check.indicator())
                    : Optional.empty();
        }

        private static Optional<Raw> of(
                History.Version version, @Nullable BigDecimal reading, @Nullable InstrumentId indicator) {
            return reading == null || indicator == null
                    ? Optional.empty()
                    : Optional.of(new Raw(version, reading, indicator, null, null));
        }

        Instant at() {
            return version.told().from();
        }
    }

    /** What each reading is held against; each instrument, set and model is looked up once. */
    private final class Yardsticks {

        private final Site site;
        private final SiteRules rules;
        private final Instant now;
        private final Map<InstrumentId, List<Told<Calibration>>> calibrations = new HashMap<>();
        private final Map<InstrumentId, List<Told<Hold>>> holds = new HashMap<>();
        private final DataThen data;

        Yardsticks(Site site, SiteRules rules, Instant now) {
            this.site = site;
            this.rules = rules;
            this.now = now;
            this.data = new DataThen(history, site.id(), now);
        }

        MeasuredFlow judged(Raw raw) {
            SetId set = new SetId(raw.version().told().subject());
            List<Told<Calibration>> newestFirst = calibrations.computeIfAbsent(
                    raw.instrument(), instrument -> indicators.calibrations(site.id(), instrument, now));
            Told<Calibration> last = newestFirst.stream()
                    .filter(told -> !told.from().isAfter(raw.at()))
                    .findFirst()
                    .orElse(null);
            ModelData model = data.model(set, raw.at());
            InForce inForce = rules.at(raw.at());
            BigDecimal assumed = FlowYardstick.assumedUncertainty(inForce);
            FlowYardstick yardstick =
                    last == null || model == null ? null : FlowYardstick.of(last.fact(), model, inForce);
            if (last == null || model == null || yardstick == null) {
                return with(raw, set, model, last, null, null, MeasurementChain.Standing.NOT_CALIBRATED);
            }
            MeasurementChain.Rejudged rejudged = MeasurementChain.of(
                            oldestFirst(newestFirst, assumed), List.of(result(raw, yardstick)))
                    .get(0);
            boolean held = rejudged.standing() == MeasurementChain.Standing.COUNTS
                    && Hold.lay(
                            holds.computeIfAbsent(
                                    raw.instrument(), instrument -> indicators.holds(site.id(), instrument, now)),
                            raw.at());
            return with(
                    raw,
                    set,
                    model,
                    last,
                    yardstick,
                    rejudged,
                    held ? MeasurementChain.Standing.HELD : rejudged.standing());
        }

        private MeasurementChain.Result result(Raw raw, FlowYardstick yardstick) {
            AirCondition own = yardstick.condition();
            AirCondition air = new AirCondition(
                    raw.celsius() == null ? own.celsius() : raw.celsius(),
                    raw.hectopascals() == null ? own.hectopascals() : raw.hectopascals());
            return new MeasurementChain.Result(
                    raw.version().told().id(), raw.at(), raw.shown(), air, yardstick.minimum());
        }

        private List<MeasurementChain.Calibrated> oldestFirst(List<Told<Calibration>> newestFirst, BigDecimal assumed) {
            List<MeasurementChain.Calibrated> all = new ArrayList<>();
            newestFirst.forEach(told -> all.add(0, calibrated(told, assumed)));
            return all;
        }

        private MeasurementChain.Calibrated calibrated(Told<Calibration> told, BigDecimal assumed) {
            Calibration calibration = told.fact();
            return new MeasurementChain.Calibrated(
                    told.from(),
                    FlowYardstick.indicator(calibration, assumed),
                    calibration.outcome() == Outcome.PASS,
                    calibration.asFoundInTolerance(),
                    calibration.asFoundFactor(),
                    Days.endOf(calibration.lastDay(), site.zone()));
        }

        private MeasuredFlow with(
                Raw raw,
                SetId set,
                @Nullable ModelData model,
                @Nullable Told<Calibration> last,
                @Nullable FlowYardstick yardstick,
                MeasurementChain.@Nullable Rejudged rejudged,
                MeasurementChain.Standing standing) {
            return new MeasuredFlow(
                    raw.version(),
                    set,
                    raw.shown(),
                    raw.instrument(),
                    raw.celsius(),
                    raw.hectopascals(),
                    model,
                    last,
                    yardstick,
                    standing,
                    rejudged == null ? null : rejudged.asJudged(),
                    rejudged == null ? null : rejudged.withError());
        }
    }
}
