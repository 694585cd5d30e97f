package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.AIR_PURIFIER;
import static org.hoodkeeper.rules.RequirementKind.AIR_SUPPLY;
import static org.hoodkeeper.rules.RequirementKind.SUPPLY_HOLD;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.hoodkeeper.calculation.air.AirSample;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/** What is required of the breathing air: tested since it was last moved, passed, in date, its purifiers not overdue, not held. */
final class SupplyRequirements {

    /** Tests of one supply that are looked through for one that says all; so many are loaded. */
    private static final int MOST_TESTS = 40;

    private SupplyRequirements() {}

    /** UK: at least every three months, and after every move (HSE, restated). US: 29 CFR 1910.134(i), no single interval. */
    static void air(Judging judging) {
        if (!judging.type().isAirFed()) {
            judging.notApplicable(AIR_SUPPLY, Why.NOT_AIR_FED);
            judging.notApplicable(AIR_PURIFIER, Why.NOT_AIR_FED);
            judging.notApplicable(SUPPLY_HOLD, Why.NOT_AIR_FED);
            return;
        }
        InForce.Demand demand = judging.demand(AIR_SUPPLY);
        SupplyFile supply = supply(judging);
        if (supply == null) {
            judging.add(Reason.of(AIR_SUPPLY, Result.UNKNOWN, Why.NO_SUPPLY).by(demand));
            return;
        }
        purifier(judging, supply);
        holds(judging, supply);
        if (demand != null && demand.isUndecided()) {
            judging.add(
                    Reason.of(AIR_SUPPLY, Result.UNKNOWN, Why.DECISION_MISSING).by(demand));
            return;
        }
        tests(judging, supply, demand);
    }

    /**
     * The newest test since the last move that says all that is limited decides. One that says part of it, as a look at carbon
     * monoxide alone, stops the air where it finds too much, and proves nothing by itself.
     */
    private static void tests(Judging judging, SupplyFile supply, InForce.@Nullable Demand demand) {
        List<Told<AirTest>> tests = judging.begun(supply.tests());
        Told<SupplyMove> moved = movedVoids(judging) ? judging.latest(supply.moves()) : null;
        Told<AirTest> inPart = null;
        List<AirSample.Component> unknown = List.of();
        for (Told<AirTest> test : tests.subList(0, Math.min(tests.size(), MOST_TESTS))) {
            if (!Judging.isAfter(test, moved)) {
                break;
            }
            AirJudgement judgement = AirJudgement.of(test.fact(), judging.rules);
            if (judgement.failed()) {
                judging.notMet(AIR_SUPPLY, Why.FAILED, test, demand, judging.dayOf(test));
                return;
            }
            if (judgement.unknown().isEmpty()) {
                age(judging, test, demand);
                return;
            }
            if (inPart == null) {
                inPart = test;
                unknown = judgement.unknown();
            }
        }
        if (inPart != null) {
            judging.add(new Reason(
                    AIR_SUPPLY,
                    Result.UNKNOWN,
                    Why.INCOMPLETE,
                    List.of(judging.dayOf(inPart), unknown),
                    inPart.id(),
                    demand,
                    null));
        } else if (moved != null && !tests.isEmpty()) {
            judging.notMet(AIR_SUPPLY, Why.MOVED, moved, demand, judging.dayOf(moved));
        } else {
            judging.notMet(AIR_SUPPLY, Why.MISSING, null, demand);
        }
    }

    private static void age(Judging judging, Told<AirTest> test, InForce.@Nullable Demand demand) {
        Instant end = judging.endOf(test, demand);
        if (!judging.lapsed(AIR_SUPPLY, test, demand, end, judging.dayOf(test))) {
            judging.met(AIR_SUPPLY, test, demand, end, judging.dayOf(test));
        }
    }

    /**
     * Sorbents and filters are changed as their maker says: 29 CFR 1910.134(i)(5)(iii); the tag at the compressor, (iv), names the
     * last change, and the day by which the next is due is good to its end. A supply without a tag on record, cylinders for
     * instance, is asked for none; a tag that names no next day has no end on record.
     */
    private static void purifier(Judging judging, SupplyFile supply) {
        Told<PurifierTag> tag = judging.latest(supply.tags());
        if (tag == null) {
            judging.notApplicable(AIR_PURIFIER, Why.NO_TAG);
            return;
        }
        InForce.Demand demand = judging.demand(AIR_PURIFIER);
        LocalDate nextOn = tag.fact().nextOn();
        if (nextOn == null || demand == null) {
            judging.met(AIR_PURIFIER, tag, demand, null, judging.dayOf(tag));
            return;
        }
        Instant end = Days.endOf(nextOn, judging.zone);
        if (!judging.lapsed(AIR_PURIFIER, tag, demand, end, judging.dayOf(tag))) {
            judging.met(AIR_PURIFIER, tag, demand, end, judging.dayOf(tag));
        }
    }

    private static void holds(Judging judging, SupplyFile supply) {
        boolean held = false;
        for (Told<Hold> hold : OpenHolds.of(judging, supply.holds())) {
            held = true;
            judging.notMet(SUPPLY_HOLD, Why.HELD, hold, null, hold.fact().why(), judging.dayOf(hold));
        }
        if (!held) {
            judging.met(SUPPLY_HOLD, Why.IN_PLACE);
        }
    }

    private static @Nullable SupplyFile supply(Judging judging) {
        return judging.setData == null || judging.setData.fact().supply() == null
                ? null
                : judging.dossier.supplies().apply(judging.setData.fact().supply());
    }

    private static boolean movedVoids(Judging judging) {
        InForce.Decided decided = judging.rules.decision("air.moved-voids");
        return decided == null || decided.isYes();
    }
}
