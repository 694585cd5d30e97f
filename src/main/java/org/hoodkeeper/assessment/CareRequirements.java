package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.CLEAN;
import static org.hoodkeeper.rules.RequirementKind.EXAMINATION;
import static org.hoodkeeper.rules.RequirementKind.FLOW;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.Circumstance;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.Term;
import org.jspecify.annotations.Nullable;

/** What the store keeps up: examined, flow proven, clean for this wearer. */
final class CareRequirements {

    private CareRequirements() {}

    /**
     * UK: at least once a month; where used only occasionally before the next use, and never more than three months apart
     * (ACoP L5, 181 and 182; HSG53). US routine sets: before each use instead, 29 CFR 1910.134(h)(3). A set that was found
     * after it was missing is examined first.
     */
    static void examination(Judging judging, SetFile set) {
        InForce.Demand demand = worn(judging);
        Told<Custody> found = found(judging, set);
        Told<Examination> last = null;
        boolean refused = false;
        for (Told<Examination> told : judging.begun(set.examinations())) {
            if (!Judging.isAfter(told, found)) {
                break;
            }
            if (told.fact().outcome() == Outcome.FAIL || isAccepted(judging, set, told)) {
                last = told;
                break;
            }
            refused = true;
        }
        if (demand == null && found == null && last == null) {
            judging.notApplicable(EXAMINATION, Why.NOT_REQUIRED);
        } else if (last == null && found != null) {
            judging.notMet(EXAMINATION, Why.FOUND, found, demand, judging.dayOf(found));
        } else if (last == null) {
            judging.notMet(EXAMINATION, refused ? Why.NOT_ACCEPTED : Why.MISSING, null, demand);
        } else if (last.fact().outcome() == Outcome.FAIL) {
            judging.notMet(EXAMINATION, Why.FAILED, last, demand, judging.dayOf(last));
        } else {
            age(judging, set, last, demand);
        }
    }

    private static void age(Judging judging, SetFile set, Told<Examination> last, InForce.@Nullable Demand demand) {
        Instant end = judging.endOf(last, demand);
        if (!judging.isOver(end)) {
            judging.met(EXAMINATION, last, demand, end, judging.dayOf(last));
            return;
        }
        Why why = Why.LAPSED;
        if (!wornSince(judging, set, last)) {
            Instant overdue = longest(judging, last);
            judging.watch(overdue);
            why = judging.isOver(overdue) ? Why.OVERDUE_UNUSED : Why.DUE_BEFORE_USE;
        }
        judging.lapsed(EXAMINATION, why, last, demand, end, judging.dayOf(last));
    }

    private static @Nullable Instant longest(Judging judging, Told<?> last) {
        return judging.endOf(last, judging.demand(EXAMINATION, Circumstance.UNUSED_SINCE));
    }

    /** An emergency set has its own rhythm where the rule set names one, and never a laxer one than a set in use. */
    private static InForce.@Nullable Demand worn(Judging judging) {
        InForce.Demand emergency =
                judging.isEmergencySet() ? judging.demand(EXAMINATION, Circumstance.EMERGENCY_SET) : null;
        return emergency == null ? judging.demand(EXAMINATION, Circumstance.WORN_SINCE) : emergency;
    }

    private static boolean wornSince(Judging judging, SetFile set, Told<?> event) {
        Told<Wear> wear = judging.latest(set.wears());
        Told<PreUseCheck> donned = judging.latest(set.preUseChecks());
        return (wear != null && Judging.isAfter(wear, event)) || (donned != null && Judging.isAfter(donned, event));
    }

    /** An examination of a device with a flow counts only with a flow measured by a valid instrument: ACoP L5, 179. */
    private static boolean isAccepted(Judging judging, SetFile set, Told<Examination> told) {
        if (judging.modelData().minimumFlow() == null) {
            return true;
        }
        return told.fact().reading() != null
                && told.fact().indicator() != null
                && validCalibration(judging, set, told.fact().indicator(), told.from()) != null;
    }

    /** None where the instrument was not valid then, or on hold: dropped, suspected, put aside. */
    static @Nullable Told<Calibration> validCalibration(
            Judging judging, SetFile set, InstrumentId instrument, Instant at) {
        if (Hold.lay(set.instrumentHolds().getOrDefault(instrument, List.of()), at)) {
            return null;
        }
        return FlowYardstick.validAt(set.calibrations().getOrDefault(instrument, List.of()), at, judging.zone);
    }

    /**
     * The newest accepted measurement after the last part change, wash, defect, failed check or repair, not older than the examination
     * interval. A wash that was broken off undoes it too: the set was in pieces. A measurement with an invalid instrument is not accepted: it neither proves nor disproves.
     */
    static void flow(Judging judging, SetFile set) {
        InForce.Demand demand = judging.demand(FLOW);
        ModelData model = judging.modelData();
        if (!model.type().hasFlow()) {
            judging.notApplicable(FLOW, Why.NO_FLOW);
            return;
        }
        FlowMinimum minimum = FlowMinimum.of(model, judging.rules);
        if (minimum == null) {
            judging.add(Reason.of(FLOW, Result.UNKNOWN, Why.MINIMUM_UNKNOWN)
                    .record(judging.model == null ? null : judging.model.id())
                    .by(demand));
            return;
        }
        Told<?> undone = flowUndoneBy(judging, set);
        Told<?> refused = null;
        Measurements measurements = new Measurements(judging, set);
        for (Measured measured = measurements.next(); measured != null; measured = measurements.next()) {
            if (!Judging.isAfter(measured.told(), undone)) {
                break;
            }
            FlowReading.Judgement judgement = judge(judging, set, measured);
            if (judgement == null) {
                refused = refused == null ? measured.told() : refused;
                continue;
            }
            flowAge(judging, measured.told(), demand, judgement, minimum);
            return;
        }
        if (refused != null) {
            judging.notMet(FLOW, Why.NOT_ACCEPTED, refused, demand, judging.dayOf(refused));
        } else if (undone != null) {
            judging.notMet(FLOW, Why.UNDONE, undone, demand, judging.dayOf(undone));
        } else {
            judging.notMet(FLOW, Why.MISSING, null, demand);
        }
    }

    private static void flowAge(
            Judging judging,
            Told<?> told,
            InForce.@Nullable Demand demand,
            FlowReading.Judgement judgement,
            FlowMinimum minimum) {
        Object[] figures = {judgement.corrected(), minimum.litresPerMinute(), judging.dayOf(told)};
        if (!judgement.passed()) {
            judging.notMet(FLOW, minimum.byApproval() ? Why.BELOW_APPROVAL : Why.FAILED, told, demand, figures);
            return;
        }
        Instant end = judging.endOf(told, worn(judging));
        if (!judging.lapsed(FLOW, told, demand, end, judging.dayOf(told))) {
            Why why = minimum.byApproval() ? Why.AS_APPROVED : Why.IN_PLACE;
            judging.add(new Reason(FLOW, Result.MET, why, List.of(figures), told.id(), demand, end));
        }
    }

    private record Measured(
            Told<?> told,
            BigDecimal reading,
            InstrumentId instrument,
            @Nullable BigDecimal celsius,
            @Nullable BigDecimal hectopascals) {}

    /** Flow checks, and examinations that measured the flow, newest first: looked at one by one, most often the first decides. */
    private static final class Measurements {

        private final List<Told<FlowCheck>> checks;
        private final List<Told<Examination>> examinations;
        private int check;
        private int examination;

        Measurements(Judging judging, SetFile set) {
            checks = judging.begun(set.flowChecks());
            examinations = judging.begun(set.examinations());
        }

        /** None when there are no more. */
        @Nullable Measured next() {
            while (examination < examinations.size()
                    && !isMeasured(examinations.get(examination).fact())) {
                examination++;
            }
            Told<FlowCheck> one = check < checks.size() ? checks.get(check) : null;
            Told<Examination> other = examination < examinations.size() ? examinations.get(examination) : null;
            if (one != null && Judging.isAfter(one, other)) {
                check++;
                FlowCheck fact = one.fact();
                return new Measured(one, fact.reading(), fact.instrument(), fact.celsius(), fact.hectopascals());
            }
            examination++;
            return other == null ? null : measured(other);
        }

        private static boolean isMeasured(Examination fact) {
            return fact.reading() != null && fact.indicator() != null;
        }

        private static @Nullable Measured measured(Told<Examination> told) {
            BigDecimal reading = told.fact().reading();
            InstrumentId indicator = told.fact().indicator();
            return reading == null || indicator == null ? null : new Measured(told, reading, indicator, null, null);
        }
    }

    private static FlowReading.@Nullable Judgement judge(Judging judging, SetFile set, Measured measured) {
        Told<Calibration> calibration = validCalibration(
                judging, set, measured.instrument(), measured.told().from());
        if (calibration == null) {
            return null;
        }
        FlowYardstick yardstick = FlowYardstick.of(calibration.fact(), judging.modelData(), judging.rules);
        if (yardstick == null) {
            return null;
        }
        try {
            return yardstick.judge(measured.reading(), measured.celsius(), measured.hectopascals());
        } catch (Refused outOfRange) {
            return null;
        }
    }

    private static @Nullable Told<?> flowUndoneBy(Judging judging, SetFile set) {
        Told<?> undone = judging.latest(set.partChanges());
        undone = Judging.later(
                undone, judging.latest(set.cleanings(), told -> told.fact().method() != Cleaning.Method.WIPE));
        undone = Judging.later(undone, judging.latest(set.defects()));
        undone = Judging.later(undone, failedCheck(judging, set));
        undone = Judging.later(
                undone, judging.latest(set.holds(), told -> told.fact().why() == Hold.Why.UNDER_REPAIR));
        if (OpenWash.of(judging, set) == null) {
            // while it is open, it bars by itself
            undone = Judging.later(undone, OpenWash.stripped(judging, set));
        }
        return Judging.later(undone, found(judging, set));
    }

    /** A check that failed on the set, where its wearer has not looked it over anew since: a release says nothing about the flow. */
    private static @Nullable Told<PreUseCheck> failedCheck(Judging judging, SetFile set) {
        Set<UUID> wearers = new HashSet<>();
        for (Told<PreUseCheck> told : judging.begun(set.preUseChecks())) {
            if (wearers.add(told.item()) && told.fact().failedOnSet()) {
                return told;
            }
        }
        return null;
    }

    /** When the set turned up after it was missing: at a find, or at whatever else was claimed next. Several requirements ask. */
    private static @Nullable Told<Custody> found(Judging judging, SetFile set) {
        if (judging.find == null) {
            judging.find = new Find(findOf(judging, set));
        }
        return judging.find.told();
    }

    /** @param told none where it never turned up, or was never missing */
    record Find(@Nullable Told<Custody> told) {}

    private static @Nullable Told<Custody> findOf(Judging judging, SetFile set) {
        Told<Custody> next = null;
        for (Told<Custody> told : judging.begun(set.custody())) {
            Custody.Claim claim = told.fact().claim();
            if (claim == Custody.Claim.FOUND) {
                return told;
            }
            if (claim == Custody.Claim.MISSING && next != null) {
                return next;
            }
            next = told;
        }
        return null;
    }

    /**
     * Clean for this wearer: disinfected since anyone else wore it, 29 CFR 1910.134(h)(1)(ii); a full clean at least weekly for
     * one wearer (DGUV Regel 112-190, working week of use). A wipe never covers a change of wearer. A set that nobody has worn since
     * it was received is as delivered. One that lies in a wash is clean for nobody until the wash is over.
     */
    static void clean(Judging judging, SetFile set) {
        OpenWash wash = OpenWash.of(judging, set);
        if (wash != null) {
            judging.notMet(
                    CLEAN,
                    wash.left() ? Why.LEFT_IN_WASH : Why.IN_WASH,
                    wash.last(),
                    judging.demand(CLEAN, Circumstance.CHANGE_OF_WEARER),
                    wash.stripped().from());
            return;
        }
        Told<?> other = wornByAnother(judging, set);
        Told<Cleaning> disinfected =
                judging.latest(set.cleanings(), told -> told.fact().disinfects(judging.modelData()));
        Told<Cleaning> newest = judging.latest(set.cleanings());
        if (other != null && (disinfected == null || !isSince(disinfected, other))) {
            notCleanFor(judging, set, other, newest, judging.demand(CLEAN, Circumstance.CHANGE_OF_WEARER));
            return;
        }
        if (!usedInAnEmergency(judging, set, disinfected)) {
            weekly(judging, set, judging.demand(CLEAN, Circumstance.ONE_WEARER));
        }
    }

    /** A set for emergencies is cleaned and disinfected after each use, 29 CFR 1910.134(h)(1)(iii): where the rule set asks for it. */
    private static boolean usedInAnEmergency(Judging judging, SetFile set, @Nullable Told<Cleaning> disinfected) {
        InForce.Demand demand = judging.isEmergencySet() ? judging.demand(CLEAN, Circumstance.EMERGENCY_SET) : null;
        if (demand == null) {
            return false;
        }
        for (Told<Wear> told : judging.begun(set.wears())) {
            Instant off = told.fact().step() == Wear.Step.EXIT ? told.from() : told.until();
            judging.watch(off);
            if (off != null && !off.isAfter(judging.at)) {
                boolean used = disinfected == null || disinfected.from().isBefore(off);
                if (used) {
                    judging.notMet(CLEAN, Why.USED, told, demand, judging.dayOf(told));
                }
                return used;
            }
        }
        return false;
    }

    private static void notCleanFor(
            Judging judging,
            SetFile set,
            Told<?> other,
            @Nullable Told<Cleaning> newest,
            InForce.@Nullable Demand demand) {
        if (newest != null && isSince(newest, other)) {
            Why why = newest.fact().method() == Cleaning.Method.WIPE ? Why.WIPED_ONLY : Why.NOT_ACCEPTED;
            judging.notMet(CLEAN, why, newest, demand, judging.dayOf(other));
        } else {
            boolean found = other.equals(found(judging, set));
            judging.notMet(CLEAN, found ? Why.FOUND : Why.WORN_BY_ANOTHER, other, demand, judging.dayOf(other));
        }
    }

    /** After it came off: a wear told as a whole has its end in the same record. */
    private static boolean isSince(Told<Cleaning> cleaning, Told<?> worn) {
        return Judging.isAfter(cleaning, worn)
                && (worn.until() == null || !cleaning.from().isBefore(worn.until()));
    }

    private static void weekly(Judging judging, SetFile set, InForce.@Nullable Demand demand) {
        Told<Cleaning> full =
                judging.latest(set.cleanings(), told -> told.fact().method() != Cleaning.Method.WIPE);
        Told<?> worn = firstWornSince(judging, set, full);
        if (worn == null) {
            judging.add(new Reason(
                    CLEAN, Result.MET, Why.IN_PLACE, List.of(), full == null ? null : full.id(), demand, null));
            return;
        }
        Told<?> anchor = full == null || isOverBefore(judging, full, demand, worn) ? worn : full;
        Term term = demand == null ? null : demand.term();
        if (term == null) {
            judging.met(CLEAN, anchor, demand, null, judging.dayOf(anchor));
            return;
        }
        Instant end = judging.endOf(anchor, demand);
        if (!judging.lapsed(CLEAN, anchor, demand, end, judging.dayOf(anchor))) {
            judging.met(CLEAN, anchor, demand, end, judging.dayOf(anchor));
        }
    }

    /** A clean set does not soil on the shelf: where the week was over before anybody wore it, it runs from the first wear. */
    private static boolean isOverBefore(
            Judging judging, Told<Cleaning> full, InForce.@Nullable Demand demand, Told<?> worn) {
        Instant end = demand == null || demand.term() == null ? null : judging.endOf(full, demand);
        return end != null && !worn.from().isBefore(end);
    }

    private static @Nullable Told<?> firstWornSince(Judging judging, SetFile set, @Nullable Told<?> event) {
        Told<?> first = null;
        for (Told<? extends Fact> told : judging.begun(set.wears())) {
            if (!Judging.isAfter(told, event)) {
                break;
            }
            first = told;
        }
        for (Told<? extends Fact> told : judging.begun(set.preUseChecks())) {
            if (!Judging.isAfter(told, event)) {
                break;
            }
            if (first == null || Judging.isAfter(first, told)) {
                first = told;
            }
        }
        return first;
    }

    /**
     * The last time that somebody else had it on, as far as we know: a wear, a pre-use check, an issue that was not returned
     * unworn, or a find after it was missing.
     */
    private static @Nullable Told<?> wornByAnother(Judging judging, SetFile set) {
        UUID wearer = judging.question.worker().value();
        Told<?> last = found(judging, set);
        last = Judging.later(
                last, judging.latest(set.wears(), told -> !told.subject().equals(wearer)));
        last = Judging.later(last, judging.latest(set.preUseChecks(), told -> !wearer.equals(told.item())));
        return Judging.later(last, issuedToAnother(judging, set, wearer));
    }

    /** Where no wear is on record for an issue, the set counts as worn until it came back, unless it came back unworn. */
    private static @Nullable Told<Custody> issuedToAnother(Judging judging, SetFile set, UUID wearer) {
        Told<Custody> returned = null;
        for (Told<Custody> told : judging.begun(set.custody())) {
            switch (told.fact().claim()) {
                case RETURNED -> returned = told;
                case ISSUED -> {
                    boolean unworn = returned != null
                            && Boolean.FALSE.equals(returned.fact().worn());
                    if (!wearer.equals(told.item()) && !unworn && !hasWears(judging, set, told)) {
                        return returned == null ? told : returned;
                    }
                    returned = null;
                }
                case RECEIVED, MISSING, FOUND -> {
                    // says nothing of who wore it; a find is looked at on its own
                }
            }
        }
        return null;
    }

    private static boolean hasWears(Judging judging, SetFile set, Told<Custody> issue) {
        for (Told<Wear> told : judging.begun(set.wears())) {
            if (told.subject().equals(issue.item()) && Judging.isAfter(told, issue)) {
                return true;
            }
        }
        return false;
    }
}
