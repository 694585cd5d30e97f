package org.hoodkeeper.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.hoodkeeper.calculation.parts.FailureMode;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.calculation.parts.PartTrace;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.History;
import org.springframework.stereotype.Component;

/**
 * What the set of a failure has in common with others: the lot of a part, a wash, the instrument that measured it, or who examined
 * it. Each may have the same fault for the same cause; common practice, no source.
 */
@Component
class SharedThings {

    private static final int MOST = 20_000;

    private final History history;
    private final PartHistory parts;

    SharedThings(History history, PartHistory parts) {
        this.history = history;
        this.parts = parts;
    }

    /** Only what others have too; empty for a failure that is not of one set. */
    List<LookBacks.Shared> of(SiteId site, LookBacks.Whole whole) {
        if (whole.exposed().size() != 1 || whole.looked().isEmpty()) {
            return List.of();
        }
        SetId set = whole.exposed().get(0).set();
        Instant from = whole.from() == null ? Instant.EPOCH : whole.from();
        List<LookBacks.Shared> all = new ArrayList<>(lots(site, set, whole));
        all.addAll(washes(site, set, from, whole.until(), whole.now()));
        List<History.Version> proofs = history
                .ofEach(
                        site,
                        List.of(set.value()),
                        Set.of(Kind.FLOW_CHECK, Kind.EXAMINATION, Kind.PRE_USE_CHECK),
                        whole.now(),
                        MOST)
                .stream()
                .filter(version -> version.isCurrent()
                        && !version.told().from().isBefore(from)
                        && !version.told().from().isAfter(whole.until()))
                .toList();
        if (whole.looked().stream().anyMatch(one -> one.fault().mode() == FailureMode.LOW_FLOW)) {
            all.addAll(instruments(site, set, proofs, from, whole));
        }
        all.addAll(examiners(site, set, proofs, from, whole));
        all.removeIf(one -> one.sets().isEmpty());
        return all;
    }

    /** Of the parts that were in when the fault was found; where a place is named, of that place alone. */
    private List<LookBacks.Shared> lots(SiteId site, SetId set, LookBacks.Whole whole) {
        PartTrace trace = parts.ofAll(site, whole.now());
        List<LookBacks.Shared> shared = new ArrayList<>();
        for (Fitting fitting : trace.of(set, whole.failure().told().from())) {
            boolean meant = whole.looked().stream()
                    .map(LookBacks.Looked::fault)
                    .anyMatch(fault -> fault.isOfWhole() || fault.isAt(fitting.place()));
            if (fitting.lot() != null && meant) {
                Set<SetId> sets = trace.ofLot(fitting.lot()).stream()
                        .filter(other -> other.part().equals(fitting.part()))
                        .map(Fitting::set)
                        .collect(Collectors.toCollection(LinkedHashSet::new));
                sets.remove(set);
                shared.add(new LookBacks.Shared(
                        LookBacks.Shared.Sort.LOT,
                        List.of(fitting.place(), fitting.part(), fitting.lot()),
                        null,
                        sets));
            }
        }
        return shared;
    }

    private List<LookBacks.Shared> washes(SiteId site, SetId set, Instant from, Instant until, Instant now) {
        Map<String, Set<SetId>> batches = new LinkedHashMap<>();
        for (History.Version version : history.of(site, site, Set.of(Kind.WASH_STEP), now, MOST)) {
            Instant at = version.told().from();
            if (version.isCurrent() && version.told().item() != null && !at.isBefore(from) && !at.isAfter(until)) {
                batches.computeIfAbsent(
                                Objects.requireNonNullElse(version.told().scope(), ""), batch -> new LinkedHashSet<>())
                        .add(new SetId(version.told().item()));
            }
        }
        List<LookBacks.Shared> shared = new ArrayList<>();
        batches.forEach((batch, sets) -> {
            if (sets.remove(set)) {
                shared.add(new LookBacks.Shared(LookBacks.Shared.Sort.WASH, List.of(batch), null, sets));
            }
        });
        return shared;
    }

    private List<LookBacks.Shared> instruments(
            SiteId site, SetId set, List<History.Version> proofs, Instant from, LookBacks.Whole whole) {
        Set<InstrumentId> used = new LinkedHashSet<>();
        for (History.Version version : proofs) {
            if (version.told().fact() instanceof FlowCheck check) {
                used.add(check.instrument());
            } else if (version.told().fact() instanceof Examination examination && examination.indicator() != null) {
                used.add(examination.indicator());
            } else if (version.told().fact() instanceof PreUseCheck check && check.indicator() != null) {
                used.add(check.indicator());
            }
        }
        List<LookBacks.Shared> shared = new ArrayList<>();
        for (InstrumentId instrument : used) {
            Set<SetId> sets = new LinkedHashSet<>();
            sets.addAll(measured(site, Kind.FLOW_CHECK, "instrument", instrument, from, whole));
            sets.addAll(measured(site, Kind.EXAMINATION, "indicator", instrument, from, whole));
            sets.addAll(measured(site, Kind.PRE_USE_CHECK, "indicator", instrument, from, whole));
            sets.remove(set);
            shared.add(new LookBacks.Shared(LookBacks.Shared.Sort.INSTRUMENT, List.of(), instrument, sets));
        }
        return shared;
    }

    private Set<SetId> measured(
            SiteId site, Kind kind, String field, InstrumentId instrument, Instant from, LookBacks.Whole whole) {
        return history.naming(site, kind, field, instrument, from, whole.now(), MOST).stream()
                .filter(version -> version.isCurrent() && !version.told().from().isAfter(whole.until()))
                .map(version -> new SetId(version.told().subject()))
                .collect(Collectors.toSet());
    }

    private List<LookBacks.Shared> examiners(
            SiteId site, SetId set, List<History.Version> proofs, Instant from, LookBacks.Whole whole) {
        Set<String> examiners = new HashSet<>();
        for (History.Version version : proofs) {
            if (version.told().fact() instanceof Examination examination && examination.examiner() != null) {
                examiners.add(examination.examiner());
            }
        }
        if (examiners.isEmpty()) {
            return List.of();
        }
        Map<String, Set<SetId>> sets = new LinkedHashMap<>();
        for (History.Version version : history.of(site, Set.of(Kind.EXAMINATION), whole.now(), MOST)) {
            Instant at = version.told().from();
            SetId other = new SetId(version.told().subject());
            if (version.isCurrent()
                    && version.told().fact() instanceof Examination examination
                    && examination.examiner() != null
                    && examiners.contains(examination.examiner())
                    && !other.equals(set)
                    && !at.isBefore(from)
                    && !at.isAfter(whole.until())) {
                sets.computeIfAbsent(examination.examiner(), any -> new LinkedHashSet<>())
                        .add(other);
            }
        }
        List<LookBacks.Shared> shared = new ArrayList<>();
        sets.forEach((examiner, others) ->
                shared.add(new LookBacks.Shared(LookBacks.Shared.Sort.EXAMINER, List.of(examiner), null, others)));
        return shared;
    }
}
