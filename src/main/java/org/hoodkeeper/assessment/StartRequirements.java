package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.ISSUED;
import static org.hoodkeeper.rules.RequirementKind.PLACEMENT_CHECK;
import static org.hoodkeeper.rules.RequirementKind.PRE_USE_CHECK;
import static org.hoodkeeper.rules.RequirementKind.SEAL_CHECK;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/** What can only be met at the start: set in hand, looked over, donned right. */
final class StartRequirements {

    private static final Duration GOOD_FOR = Duration.ofHours(12);

    private StartRequirements() {}

    static void issued(Judging judging, SetFile set) {
        Told<Custody> last = null;
        for (Told<Custody> told : judging.begun(set.custody())) {
            if (last != null) {
                unclearOrHeld(judging, last, told);
                return;
            }
            last = told;
        }
        unclearOrHeld(judging, last, null);
    }

    private static void unclearOrHeld(Judging judging, @Nullable Told<Custody> last, @Nullable Told<Custody> before) {
        UUID wearer = judging.question.worker().value();
        if (last == null || last.fact().claim() != Custody.Claim.ISSUED) {
            judging.missingAtStart(ISSUED, Why.NOT_ISSUED, null);
        } else if (before != null
                && before.fact().claim() == Custody.Claim.ISSUED
                && before.item() != null
                && !before.item().equals(last.item())) {
            judging.notMet(ISSUED, Why.CUSTODY_UNCLEAR, last, null);
        } else if (wearer.equals(last.item())) {
            judging.met(ISSUED, last, null, null);
        } else {
            judging.missingAtStart(ISSUED, Why.WITH_ANOTHER, null);
        }
    }

    /**
     * Looked over by this wearer at this donning: 29 CFR 1910.134(h)(3)(i)(A), ACoP L5, 178. Good until the wearer takes it
     * off, until anything is done to the set, and no longer than the site's limit.
     */
    static void preUseCheck(Judging judging, SetFile set) {
        InForce.Demand demand = judging.demand(PRE_USE_CHECK);
        Told<PreUseCheck> check = currentCheck(judging);
        if (check == null) {
            judging.missingAtStart(PRE_USE_CHECK, Why.MISSING, demand);
            return;
        }
        if (!check.fact().passed(PersonRequirements.isHairAccepted(judging))) {
            judging.notMet(PRE_USE_CHECK, Why.FAILED, check, demand, judging.dayOf(check));
            return;
        }
        if (!check.fact().isWholeFor(judging.type())) {
            judging.notMet(PRE_USE_CHECK, Why.INCOMPLETE, check, demand, judging.dayOf(check));
            return;
        }
        FlowMinimum minimum = FlowMinimum.of(judging.modelData(), judging.rules);
        if (minimum != null && !showsFlow(judging, set, check, minimum)) {
            BigDecimal reading = check.fact().reading();
            judging.notMet(
                    PRE_USE_CHECK,
                    Why.NOT_ACCEPTED,
                    check,
                    demand,
                    reading == null ? "–" : reading,
                    minimum.litresPerMinute());
            return;
        }
        judging.met(PRE_USE_CHECK, check, demand, check.from().plus(goodFor(judging)));
    }

    private static boolean showsFlow(Judging judging, SetFile set, Told<PreUseCheck> check, FlowMinimum minimum) {
        BigDecimal reading = check.fact().reading();
        if (reading == null) {
            return false;
        }
        if (check.fact().indicator() == null) {
            return reading.compareTo(minimum.litresPerMinute()) >= 0;
        }
        Told<Calibration> calibration =
                CareRequirements.validCalibration(judging, set, check.fact().indicator(), check.from());
        FlowYardstick yardstick =
                calibration == null ? null : FlowYardstick.of(calibration.fact(), judging.modelData(), judging.rules);
        if (yardstick == null) {
            return false;
        }
        try {
            FlowReading.Judgement judgement = yardstick.judge(reading, null, null);
            return judgement.passed();
        } catch (Refused outOfRange) {
            return false;
        }
    }

    /** A hood sits right all round its edge; a mask's seal holds: 29 CFR 1910.134(g)(1)(iii) for tight-fitting ones. */
    static void placement(Judging judging) {
        RequirementKind kind = judging.type().isTightFitting() ? SEAL_CHECK : PLACEMENT_CHECK;
        judging.notApplicable(
                kind == SEAL_CHECK ? PLACEMENT_CHECK : SEAL_CHECK,
                kind == SEAL_CHECK ? Why.TIGHT_FITTING : Why.LOOSE_FITTING);
        InForce.Demand demand = judging.demand(kind);
        Told<PreUseCheck> check = currentCheck(judging);
        Outcome placement = check == null ? null : check.fact().placement();
        if (check != null && placement == Outcome.FAIL) {
            judging.notMet(kind, Why.FAILED, check, demand, judging.dayOf(check));
        } else if (check != null && placement == Outcome.PASS) {
            judging.met(kind, check, demand, null);
        } else {
            judging.missingAtStart(kind, Why.MISSING, demand);
        }
    }

    private static Duration goodFor(Judging judging) {
        InForce.Decided decided = judging.rules.decision("pre-use-check.good-for");
        return decided == null ? GOOD_FOR : decided.duration();
    }

    /** This wearer's check that still stands: nothing has undone it and it is not too old. Several requirements ask for it. */
    static @Nullable Told<PreUseCheck> currentCheck(Judging judging) {
        if (judging.currentCheck == null) {
            judging.currentCheck = new CurrentCheck(findCurrentCheck(judging));
        }
        return judging.currentCheck.told();
    }

    /** @param told none where none stands */
    record CurrentCheck(@Nullable Told<PreUseCheck> told) {}

    private static @Nullable Told<PreUseCheck> findCurrentCheck(Judging judging) {
        SetFile set = judging.dossier.set();
        if (set == null) {
            return null;
        }
        UUID wearer = judging.question.worker().value();
        Told<PreUseCheck> check = judging.latest(set.preUseChecks());
        if (check == null || !wearer.equals(check.item())) {
            return null;
        }
        Instant end = check.from().plus(goodFor(judging));
        judging.watch(end);
        return judging.isOver(end) || isUndone(judging, set, check) ? null : check;
    }

    /** The check that stands, or stood when the stint began and has run out since. */
    static @Nullable Told<PreUseCheck> checkOfStint(Judging judging) {
        SetFile set = judging.dossier.set();
        Told<PreUseCheck> check = set == null ? null : judging.latest(set.preUseChecks());
        if (set == null || check == null || !judging.question.worker().value().equals(check.item())) {
            return null;
        }
        boolean stood = check.from()
                .plus(goodFor(judging))
                .isAfter(judging.question.wear().from());
        return stood && !isUndone(judging, set, check) ? check : null;
    }

    private static boolean isUndone(Judging judging, SetFile set, Told<PreUseCheck> check) {
        Told<?> handled = judging.latest(set.partChanges());
        handled = Judging.later(handled, judging.latest(set.cleanings()));
        handled = Judging.later(handled, judging.latest(set.custody()));
        handled = Judging.later(handled, judging.latest(set.defects()));
        handled = Judging.later(handled, judging.latest(set.holds()));
        return (handled != null && Judging.isAfter(handled, check)) || takenOffSince(judging, set, check);
    }

    private static boolean takenOffSince(Judging judging, SetFile set, Told<PreUseCheck> check) {
        for (Told<Wear> told : set.wears()) {
            Instant off =
                    switch (told.fact().step()) {
                        case EXIT -> told.from();
                        case WHOLE -> told.until();
                        case ENTRY -> null;
                    };
            if (off == null) {
                continue;
            }
            judging.watch(off);
            if (off.isAfter(check.from()) && !off.isAfter(judging.at)) {
                return true;
            }
        }
        return false;
    }
}
