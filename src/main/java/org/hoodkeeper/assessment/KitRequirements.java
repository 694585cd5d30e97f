package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.BATTERY;
import static org.hoodkeeper.rules.RequirementKind.KIT_HOLD;
import static org.hoodkeeper.rules.RequirementKind.PARTS;
import static org.hoodkeeper.rules.RequirementKind.PART_LIFE;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.Term;
import org.hoodkeeper.rules.YearReading;
import org.jspecify.annotations.Nullable;

/** What is required of the set itself: nothing holds it, its parts are approved and in life, its battery lasts. */
final class KitRequirements {

    private KitRequirements() {}

    static void holds(Judging judging, SetFile set) {
        InForce.Demand demand = judging.demand(KIT_HOLD);
        boolean held = false;
        for (Told<Hold> hold : OpenHolds.of(judging, set.holds())) {
            held = true;
            judging.notMet(KIT_HOLD, Why.HELD, hold, demand, hold.fact().why(), judging.dayOf(hold));
        }
        var defects = judging.begun(set.defects());
        Set<UUID> mended = defects.isEmpty() ? Set.of() : new HashSet<>();
        for (Told<Defect> told : defects) {
            if (told.fact().step() == Defect.Step.MENDED && told.item() != null) {
                mended.add(told.item());
            }
        }
        for (Told<Defect> told : defects) {
            if (told.fact().step() == Defect.Step.FOUND
                    && !mended.contains(told.id().value())) {
                held = true;
                String part = told.fact().part();
                judging.notMet(KIT_HOLD, Why.DEFECT_OPEN, told, demand, part == null ? "" : part, judging.dayOf(told));
            }
        }
        Told<PreUseCheck> failed = failedCheck(judging, set);
        if (failed != null) {
            held = true;
            judging.notMet(KIT_HOLD, Why.FAILED, failed, demand, judging.dayOf(failed));
        }
        Told<Custody> custody = judging.latest(set.custody());
        if (custody != null && custody.fact().claim() == Custody.Claim.MISSING) {
            held = true;
            judging.notMet(KIT_HOLD, Why.SET_MISSING, custody, demand, judging.dayOf(custody));
        }
        if (!held) {
            judging.met(KIT_HOLD, Why.IN_PLACE);
        }
    }

    /**
     * The newest pre-use check failed on the set itself, and nobody has mended or examined it since, nor released it from the hold that
     * such a check places, or from repair: it is not worn, by nobody, however long ago that was. 29 CFR 1910.134(h)(4); COSHH regulation 9(5).
     */
    private static @Nullable Told<PreUseCheck> failedCheck(Judging judging, SetFile set) {
        Told<PreUseCheck> check = judging.latest(set.preUseChecks());
        if (check == null || !check.fact().failedOnSet()) {
            return null;
        }
        Told<?> cleared = judging.latest(set.examinations(), told -> told.fact().outcome() == Outcome.PASS);
        cleared = Judging.later(
                cleared, judging.latest(set.defects(), told -> told.fact().step() == Defect.Step.MENDED));
        cleared = Judging.later(cleared, released(judging, set, Hold.Why.DEFECT));
        cleared = Judging.later(cleared, released(judging, set, Hold.Why.UNDER_REPAIR));
        return cleared != null && Judging.isAfter(cleared, check) ? null : check;
    }

    private static @Nullable Told<Hold> released(Judging judging, SetFile set, Hold.Why why) {
        Told<Hold> last = judging.latest(set.holds(), told -> told.fact().why() == why);
        return last != null && last.fact().step() == Hold.Step.RELEASED ? last : null;
    }

    /**
     * Every part on record is of the model's approved configuration and was fitted by a trained person, or examined since: 29
     * CFR 1910.134(h)(4)(i). A slot without a record is as delivered.
     */
    static void parts(Judging judging, SetFile set) {
        InForce.Demand demand = judging.demand(PARTS);
        Told<Examination> examined =
                judging.latest(set.examinations(), told -> told.fact().outcome() == Outcome.PASS);
        boolean right = true;
        List<Told<PartChange>> changes = judging.begun(set.partChanges());
        for (Told<PartChange> told : changes) {
            if (told.scope() == null || newestIn(told.scope(), changes) != told) {
                continue;
            }
            ModelData.Slot slot = slot(judging.modelData(), told.scope());
            if (slot == null || !slot.parts().contains(told.fact().part())) {
                right = false;
                judging.notMet(
                        PARTS,
                        Why.PART_NOT_APPROVED,
                        told,
                        demand,
                        told.scope(),
                        told.fact().part());
            } else if (!told.fact().fitterTrained() && (examined == null || !Judging.isAfter(examined, told))) {
                right = false;
                judging.notMet(
                        PARTS,
                        Why.FITTED_UNTRAINED,
                        told,
                        demand,
                        told.scope(),
                        told.fact().part());
            }
        }
        if (right) {
            judging.met(PARTS, Why.IN_PLACE);
        }
    }

    private static @Nullable Told<PartChange> newestIn(String slot, List<Told<PartChange>> newestFirst) {
        for (Told<PartChange> told : newestFirst) {
            if (slot.equals(told.scope())) {
                return told;
            }
        }
        return null;
    }

    private static ModelData.@Nullable Slot slot(ModelData model, String name) {
        for (ModelData.Slot slot : model.slots()) {
            if (slot.name().equals(name)) {
                return slot;
            }
        }
        return null;
    }

    /**
     * The maker's longest life, from the date of manufacture; over at the end of its due day. An unknown age of a part whose
     * life is limited is unknown, which counts as not met.
     */
    static void partLife(Judging judging, SetFile set) {
        InForce.Demand demand = judging.demand(PART_LIFE);
        boolean limited = false;
        boolean good = true;
        for (ModelData.Slot slot : judging.modelData().slots()) {
            if (slot.lifeMonths() == null) {
                continue;
            }
            limited = true;
            Told<PartChange> fitted =
                    judging.latest(set.partChanges(), told -> slot.name().equals(told.scope()));
            LocalDate made = fitted == null ? null : fitted.fact().madeOn();
            if (fitted == null || made == null) {
                good = false;
                judging.add(Reason.of(PART_LIFE, Result.UNKNOWN, Why.PART_AGE_UNKNOWN, slot.name())
                        .record(fitted == null ? null : fitted.id())
                        .by(demand));
                continue;
            }
            LocalDate lastDay =
                    new Term(slot.lifeMonths(), Term.Unit.MONTHS).lastDay(made, YearReading.CALENDAR_MONTHS);
            Instant end = Days.endOf(lastDay, judging.zone);
            if (judging.isOver(end)) {
                good = false;
                judging.notMet(PART_LIFE, Why.PART_OVER_AGE, fitted, demand, slot.name(), lastDay);
            } else {
                judging.met(PART_LIFE, fitted, demand, end, slot.name());
            }
        }
        if (!limited) {
            judging.notApplicable(PART_LIFE, Why.NOT_REQUIRED);
        } else if (!good) {
            judging.watch(Days.endOf(judging.today, judging.zone));
        }
    }

    /**
     * The battery lasts from the start, or from the last planned swap; how long, {@link BatteryTime} says. Elapsed time counts: a night over the clock change has
     * nine hours. A hood whose blower stops protects against nothing.
     */
    static void battery(Judging judging) {
        if (!judging.type().hasBlower()) {
            judging.notApplicable(BATTERY, Why.NO_BATTERY);
            return;
        }
        InForce.Demand demand = judging.demand(BATTERY);
        BatteryTime time = batteryTime(judging);
        if (unknown(judging, time, demand)) {
            return;
        }
        Instant start = running(judging);
        Duration usable = time.usable(charged(judging));
        Instant swap = null;
        for (Instant planned : judging.question.swaps()) {
            if (!planned.isAfter(judging.at) && planned.isAfter(start)) {
                start = planned;
                usable = time.usable(100);
            } else if (swap == null && planned.isAfter(start)) {
                swap = planned;
            }
        }
        Instant end = start.plus(usable);
        judging.watch(swap);
        if (judging.isOver(end)) {
            judging.add(ends(judging, Result.NOT_MET, time, usable, end).by(demand));
        } else if (swap != null && !swap.isAfter(end)) {
            judging.add(Reason.of(BATTERY, Result.MET_WITH_CONDITIONS, Why.BATTERY_SWAP, swap, end)
                    .by(demand)
                    .goodUntil(end));
        } else {
            judging.add(ends(judging, Result.MET, time, usable, end).by(demand).goodUntil(end));
        }
    }

    private static Reason ends(Judging judging, Result result, BatteryTime time, Duration usable, Instant end) {
        Told<BatteryTest> test = time.test();
        if (test == null) {
            return Reason.of(BATTERY, result, Why.BATTERY_ENDS, usable, end)
                    .record(judging.model == null ? null : judging.model.id());
        }
        return measured(
                result, Why.BATTERY_MEASURED, test, usable, end, test.fact().ran(), judging.dayOf(test));
    }

    /** The battery's number comes last, where it is on record. */
    private static Reason measured(Result result, Why why, Told<BatteryTest> test, Object... details) {
        List<Object> all = new ArrayList<>(List.of(details));
        if (test.fact().serial() != null) {
            all.add(test.fact().serial());
        }
        return Reason.of(BATTERY, result, why, all.toArray()).record(test.id());
    }

    /** Where the site has its batteries measured, one that was not, or too long ago, is not ready; on the shelf as in the question. */
    static void batteryTested(Judging judging) {
        if (judging.type().hasBlower()) {
            BatteryTime time = batteryTime(judging);
            if (time.why() == Why.LAPSED || time.why() == Why.NOT_TESTED || time.why() == Why.LOAD_UNKNOWN) {
                unknown(judging, time, judging.demand(BATTERY));
            }
        }
    }

    private static BatteryTime batteryTime(Judging judging) {
        return BatteryTime.of(judging, judging.rules, judging.modelData(), judging.dossier.set(), judging.zone);
    }

    private static boolean unknown(Judging judging, BatteryTime time, InForce.@Nullable Demand demand) {
        Why why = time.why();
        if (why == null) {
            return false;
        }
        judging.add(unknown(judging, time, why).by(demand));
        return true;
    }

    private static Reason unknown(Judging judging, BatteryTime time, Why why) {
        InForce.Decided load = BatteryTime.decidedLoad(judging.rules);
        if (why == Why.LOAD_UNKNOWN && load != null) {
            return Reason.of(BATTERY, Result.UNKNOWN, why, load.number()).record(load.record());
        }
        Told<BatteryTest> test = time.test();
        return test == null || time.goodUntil() == null
                ? Reason.of(BATTERY, Result.UNKNOWN, why)
                : measured(Result.UNKNOWN, why, test, judging.dayOf(test), time.goodUntil());
    }

    /** The blower runs since the plan's start, or since this wearer went in with the set and has not come out. */
    private static Instant running(Judging judging) {
        Instant start = judging.question.wear().from();
        SetFile set = judging.dossier.set();
        if (set == null) {
            return start;
        }
        for (Told<Wear> told : set.wears()) {
            if (!told.from().isAfter(start)) {
                boolean own = told.subject().equals(judging.question.worker().value());
                boolean on = told.fact().step() == Wear.Step.ENTRY
                        || (told.fact().step() == Wear.Step.WHOLE && told.isTrueAt(start));
                return own && on && Worn.isOfShift(told, start) ? chargedSince(judging, told) : start;
            }
        }
        return start;
    }

    /** Since the wear began, or since a later check that read the charge: then the exit was never told. */
    private static Instant chargedSince(Judging judging, Told<Wear> wear) {
        Told<PreUseCheck> check = StartRequirements.currentCheck(judging);
        return check != null && check.fact().chargePercent() != null && Judging.isAfter(check, wear)
                ? check.from()
                : wear.from();
    }

    /** Per cent, as far as the wearer's own check says how full the battery was; one that runs out later filled no battery. */
    private static int charged(Judging judging) {
        Told<PreUseCheck> check = StartRequirements.checkOfStint(judging);
        Integer percent = check == null ? null : check.fact().chargePercent();
        return percent == null ? 100 : Math.min(100, Math.max(0, percent));
    }
}
