package org.hoodkeeper.store;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.calculation.parts.FailureMode;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Component;

/** Which records ask for a look-back, as known now. What was failed on its day and passes by what is known now asks for none. */
@Component
class Failures {

    /**
     * A flow that passed may fail by model data, a calibration or a decision that were corrected since, or that reach back and were
     * told after it; or because its set turned out to be of another model. Those are looked at.
     */
    private static final String CANDIDATES = """
            with yardstick as materialized (
              select y.kind, y.subject, y.true_from, y.recorded_at, y.corrects is not null as corrects from ledger_record y
              where y.site_id = :site
                and (y.kind = any(:yardsticks) or y.kind = :decision and y.scope in ('flow.uncertainty-assumed', 'rule-set')))
            select r.id from ledger_record r
            where r.site_id = :site and not r.withdrawn and r.true_from >= :from and r.true_from < :until
              and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
              and (r.kind = any(:always)
                   or r.kind = any(:flows)
                      and (r.body ->> 'outcome' = 'FAIL'
                           or exists (select 1 from yardstick y
                                      where y.recorded_at > r.recorded_at
                                        and (y.corrects
                                             or y.true_from <= r.true_from
                                                and (y.kind <> :calibration
                                                     or y.subject::text in (r.body ->> 'instrument', r.body ->> 'indicator'))))
                           or r.subject in (select s.subject from ledger_record s where s.site_id = :site and s.kind = :set
                                            group by s.subject having count(*) > 1))
                   or r.kind = :preUse and r.body ->> 'items' like '%"FAIL"%'
                   or r.kind = :defect and r.body ->> 'step' = 'FOUND'
                   or r.kind = :cleaning and r.body ->> 'method' = 'WASH_AND_DISINFECT'
                   or r.kind = :calibration and r.body ->> 'asFoundInTolerance' = 'false')
            order by r.true_from desc, r.recorded_at desc, r.id desc limit :most""";

    /** More that may be failures than a site tells in three months. */
    private static final int MOST = 20_000;

    private final NamedParameterJdbcTemplate jdbc;
    private final History history;
    private final FlowCourses flows;
    private final RulesAtSite rules;

    Failures(NamedParameterJdbcTemplate jdbc, History history, FlowCourses flows, RulesAtSite rules) {
        this.jdbc = jdbc;
        this.history = history;
        this.flows = flows;
        this.rules = rules;
    }

    /**
     * A record that asks for a look-back.
     *
     * @param root its first version: its name, whatever is corrected later
     * @param faults what was wrong by it, one at least
     */
    record Failure(RecordId root, History.Version version, List<Fault> faults) {

        Failure {
            faults = List.copyOf(faults);
        }

        Told<?> told() {
            return version.told();
        }

        Instant at() {
            return told().from();
        }

        SetId set() {
            return new SetId(told().subject());
        }

        boolean isOfSet() {
            return switch (version.kind()) {
                case RECALL, CALIBRATION, AIR_TEST -> false;
                default -> true;
            };
        }
    }

    /** Those that were true within a period, newest first. */
    List<Failure> of(SiteId site, Instant from, Instant until, Instant now) {
        MapSqlParameterSource asked = new MapSqlParameterSource("site", site.value())
                .addValue("from", from.atOffset(ZoneOffset.UTC))
                .addValue("until", until.atOffset(ZoneOffset.UTC))
                .addValue("always", numbers(Kind.RECALL, Kind.PART_CHANGE, Kind.AIR_TEST))
                .addValue("flows", numbers(Kind.FLOW_CHECK, Kind.EXAMINATION))
                .addValue("yardsticks", numbers(Kind.MODEL, Kind.CALIBRATION))
                .addValue("decision", Kind.SITE_DECISION.number())
                .addValue("set", Kind.SET.number())
                .addValue("preUse", Kind.PRE_USE_CHECK.number())
                .addValue("defect", Kind.DEFECT.number())
                .addValue("cleaning", Kind.CLEANING.number())
                .addValue("calibration", Kind.CALIBRATION.number())
                .addValue("most", MOST);
        List<UUID> ids = jdbc.queryForList(CANDIDATES, asked, UUID.class);
        return failed(site, history.those(site, ids, now), now);
    }

    private static Integer[] numbers(Kind... kinds) {
        Integer[] numbers = new Integer[kinds.length];
        for (int i = 0; i < kinds.length; i++) {
            numbers[i] = kinds[i].number();
        }
        return numbers;
    }

    /**
     * By any version of its record.
     *
     * @return with no fault where the record was corrected or withdrawn since, or passes by what is known now
     * @throws NotFound {@code record.unknown}
     */
    Failure one(SiteId site, RecordId record, Instant now) {
        History.Version version = history.find(site, record, now);
        if (version == null) {
            throw new NotFound("record.unknown", record);
        }
        while (version.replacedBy() != null) {
            version = Objects.requireNonNull(history.find(site, version.replacedBy(), now), "a chain has no gap");
        }
        List<Failure> failed = version.withdrawal() ? List.of() : failed(site, List.of(version), now);
        return failed.isEmpty() ? new Failure(root(site, version, now), version, List.of()) : failed.get(0);
    }

    private RecordId root(SiteId site, History.Version version, Instant now) {
        History.Version first = version;
        while (first.told().corrects() != null) {
            first = Objects.requireNonNull(
                    history.find(site, first.told().corrects(), now), "what it corrects is on record");
        }
        return first.told().id();
    }

    private List<Failure> failed(SiteId site, Collection<History.Version> versions, Instant now) {
        DataThen data = new DataThen(history, site, now);
        AirThen air = new AirThen(rules, site, now);
        Map<RecordId, MeasuredFlow> measured = new HashMap<>();
        flows.measured(
                        site,
                        versions.stream()
                                .filter(version ->
                                        version.kind() == Kind.FLOW_CHECK || version.kind() == Kind.EXAMINATION)
                                .toList(),
                        now)
                .forEach(one -> measured.put(one.version().told().id(), one));
        List<Failure> failed = new ArrayList<>();
        for (History.Version version : versions) {
            List<Fault> faults = faults(version, data, air, measured);
            if (!faults.isEmpty()) {
                failed.add(new Failure(root(site, version, now), version, faults));
            }
        }
        return failed;
    }

    private static List<Fault> faults(
            History.Version version, DataThen data, AirThen air, Map<RecordId, MeasuredFlow> measuredBy) {
        Told<?> told = version.told();
        MeasuredFlow measured = measuredBy.get(told.id());
        MeasuredFlow.Result flow = measured == null ? null : measured.result();
        return switch (version.kind()) {
            case FLOW_CHECK ->
                only(
                        flow == MeasuredFlow.Result.FAILED
                                || flow != MeasuredFlow.Result.PASSED
                                        && ((FlowCheck) told.fact()).outcome() == Outcome.FAIL
                                        && !isRefusedForItsInstrumentAlone(measured),
                        Fault.of(FailureMode.LOW_FLOW));
            case EXAMINATION ->
                flow == MeasuredFlow.Result.FAILED
                        ? List.of(Fault.of(FailureMode.LOW_FLOW))
                        : only(((Examination) told.fact()).outcome() == Outcome.FAIL, Fault.of(FailureMode.DAMAGE));
            case PRE_USE_CHECK -> wearers((PreUseCheck) told.fact());
            case DEFECT -> {
                Defect defect = (Defect) told.fact();
                yield only(defect.step() == Defect.Step.FOUND, Fault.at(defect.part()));
            }
            case CLEANING -> {
                Cleaning cleaning = (Cleaning) told.fact();
                ModelData model = data.model(new SetId(told.subject()), told.from());
                yield only(
                        cleaning.method() == Cleaning.Method.WASH_AND_DISINFECT
                                && model != null
                                && !cleaning.disinfects(model),
                        Fault.of(FailureMode.DISINFECTION));
            }
            case PART_CHANGE -> {
                ModelData model = data.model(new SetId(told.subject()), told.from());
                String part = ((PartChange) told.fact()).part();
                yield only(
                        model != null
                                && model.slots().stream()
                                        .noneMatch(slot -> slot.name().equals(told.scope())
                                                && slot.parts().contains(part)),
                        new Fault(FailureMode.PART, null, told.scope()));
            }
            case RECALL -> List.of(Fault.of(FailureMode.PART));
            case CALIBRATION ->
                only(!((Calibration) told.fact()).asFoundInTolerance(), Fault.of(FailureMode.INSTRUMENT));
            case AIR_TEST -> only(air.judged(told).failed(), Fault.of(FailureMode.AIR));
            default -> List.of();
        };
    }

    /**
     * Enough air by an instrument that was not valid: it proves nothing, and it found nothing either. Too little air by such an
     * instrument stays a failure, the stricter reading, and so does what was enough before the next calibration found its error.
     */
    private static boolean isRefusedForItsInstrumentAlone(@Nullable MeasuredFlow measured) {
        return measured != null
                && measured.judged() != null
                && measured.judged().passed()
                && !measured.isTurned();
    }

    private static List<Fault> only(boolean failed, Fault fault) {
        return failed ? List.of(fault) : List.of();
    }

    /** A wearer's own face, or another's set in hand, is no fault of the set. */
    private static List<Fault> wearers(PreUseCheck check) {
        List<Fault> faults = new ArrayList<>();
        if (check.failedOnSet()) {
            check.items().forEach((item, outcome) -> {
                if (outcome == Outcome.FAIL
                        && item != PreUseCheck.Item.SKIN_AT_SEAL
                        && item != PreUseCheck.Item.RIGHT_SET) {
                    faults.add(Fault.of(item));
                }
            });
            if (check.placement() == Outcome.FAIL) {
                faults.add(Fault.of(FailureMode.PLACEMENT));
            }
        }
        return faults;
    }
}
