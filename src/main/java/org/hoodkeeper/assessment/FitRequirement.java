package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.FIT_TEST;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.Set;
import java.util.TreeSet;
import org.hoodkeeper.calculation.FitFactors;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.FitTestRule;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/**
 * A pass for this exact variant, in date; a later failure of the same variant voids it. "Powered" is no exemption: a powered
 * or air-fed mask is tested in negative-pressure mode, 29 CFR 1910.134(f)(8). What protects is the assigned factor, never the
 * fit factor of the test.
 */
public final class FitRequirement {

    private FitRequirement() {}

    static void fitTest(Judging judging) {
        if (!judging.type().isTightFitting()) {
            judging.notApplicable(FIT_TEST, Why.LOOSE_FITTING);
            return;
        }
        InForce.Demand demand = judging.demand(FIT_TEST);
        if (demand == null) {
            judging.notApplicable(FIT_TEST, Why.NOT_REQUIRED);
            return;
        }
        Variant asked = variant(judging);
        String variant = asked.toString();
        Told<Observation> faceChanged = judging.latest(
                judging.dossier.worker().observations(), told -> told.fact().seen() == Observation.Seen.FACE_CHANGED);
        Told<FitTest> refused = null;
        Told<FitTest> bounded = null;
        Set<String> others = new TreeSet<>();
        for (Told<FitTest> told : judging.begun(judging.dossier.worker().fitTests())) {
            if (!variant.equals(told.scope()) && !isAcceptedRevision(judging, told.scope(), asked)) {
                if (told.scope() != null && told.scope().startsWith(asked.model() + "/")) {
                    others.add(told.scope());
                }
                continue;
            }
            Passed passed = passed(judging, told);
            if (passed == Passed.NOT_ACCEPTED) {
                refused = refused == null ? told : refused;
                continue;
            }
            if (passed == Passed.YES && bound(judging, told) != null) {
                bounded = bounded == null ? told : bounded;
                continue;
            }
            if (bounded != null && (passed == Passed.NO || !holds(judging, told, demand, faceChanged))) {
                break;
            }
            judge(judging, told, passed, variant, demand, faceChanged);
            return;
        }
        if (bounded != null) {
            // nothing that is still good proves more
            judging.reliedUpTo = holds(judging, bounded, demand, faceChanged) ? bound(judging, bounded) : null;
            judge(judging, bounded, Passed.YES, variant, demand, faceChanged);
        } else if (refused != null) {
            judging.notMet(FIT_TEST, Why.NOT_ACCEPTED, refused, demand, variant, judging.dayOf(refused));
        } else if (others.isEmpty()) {
            judging.notMet(FIT_TEST, Why.MISSING, null, demand, variant);
        } else {
            judging.notMet(FIT_TEST, Why.OTHER_VARIANT, null, demand, variant, String.join(", ", others));
        }
    }

    private static Passed passed(Judging judging, Told<FitTest> told) {
        return passes(told.fact(), judging.type(), judging.rules.fitTest(judging.type()));
    }

    private static boolean holds(
            Judging judging, Told<FitTest> told, InForce.Demand demand, @Nullable Told<Observation> faceChanged) {
        return !judging.isOver(judging.endOf(told, demand))
                && (faceChanged == null || Judging.isAfter(told, faceChanged));
    }

    /** The highest factor that may be relied on after this test: (f)(6), where it is qualitative; none where it is not bounded. */
    private static @Nullable BigDecimal bound(Judging judging, Told<FitTest> told) {
        FitTestRule rule = judging.rules.fitTest(judging.type());
        return rule == null || isDriven(judging.type()) || !isQualitative(told.fact()) ? null : rule.qualitativeUpTo();
    }

    private static boolean isDriven(InterfaceType type) {
        return type.hasBlower() || !type.filtersRoomAir();
    }

    /** A quantitative one without its figures is none: it shows neither a factor nor that the wearer tasted nothing. */
    private static boolean isQualitative(FitTest test) {
        return test.method() == FitTest.Method.QUALITATIVE;
    }

    private static void judge(
            Judging judging,
            Told<FitTest> told,
            Passed passed,
            String variant,
            InForce.Demand demand,
            @Nullable Told<Observation> faceChanged) {
        Instant end = judging.endOf(told, demand);
        if (passed == Passed.NO) {
            judging.notMet(FIT_TEST, Why.FAILED, told, demand, variant, judging.dayOf(told));
        } else if (faceChanged != null && !Judging.isAfter(told, faceChanged)) {
            judging.notMet(FIT_TEST, Why.UNDONE, faceChanged, demand, variant, judging.dayOf(faceChanged));
        } else if (!judging.lapsed(FIT_TEST, told, demand, end, variant, judging.dayOf(told))) {
            judging.met(FIT_TEST, told, demand, end, variant, judging.dayOf(told));
        }
    }

    /** Size and seal revision come from the set; for a model alone, the size asked about and the seal now delivered. */
    static Variant variant(Judging judging) {
        String model = judging.dossier.model().code();
        if (judging.setData != null) {
            return new Variant(
                    model, judging.setData.fact().size(), judging.setData.fact().sealRevision());
        }
        String size = judging.question.size();
        return new Variant(model, size == null ? "?" : size, judging.modelData().sealRevision());
    }

    /** A test of another seal revision counts only where the site has decided so; it does not by default. */
    private static boolean isAcceptedRevision(Judging judging, @Nullable String scope, Variant variant) {
        if (scope == null || !scope.startsWith(variant.model() + "/" + variant.size() + "/")) {
            return false;
        }
        InForce.Decided decided =
                judging.rules.decision("fit-test.accept-revision", variant.model() + "/" + variant.sealRevision());
        return decided != null && decided.isYes();
    }

    /** Whether a test passes under a rule set, or cannot count there at all. */
    public enum Passed {
        YES,
        NO,
        /** Its method does not suit the device under this rule set. */
        NOT_ACCEPTED
    }

    /**
     * Judges the raw result by the rule set's own rule: US the overall value, (f)(7), a qualitative test passes, and
     * bounds the factor that is relied on, (f)(6), except for powered and supplied-air masks in negative mode, (f)(8); UK every exercise, no
     * qualitative test for full masks (INDG479, from memory). A test that its tester called failed stays failed.
     *
     * @param rule the pass rule for the type; without one no test can count
     */
    public static Passed passes(FitTest test, InterfaceType type, @Nullable FitTestRule rule) {
        if (test.outcome() == Outcome.FAIL) {
            return Passed.NO;
        }
        if (rule == null || (isDriven(type) && !test.negativeMode())) {
            return Passed.NOT_ACCEPTED;
        }
        if (isQualitative(test)) {
            return rule.qualitative() == FitTestRule.Qualitative.ALLOWED ? Passed.YES : Passed.NOT_ACCEPTED;
        }
        FitFactors.Reading reading = rule.reading() == FitTestRule.Reading.OVERALL
                ? FitFactors.Reading.OVERALL
                : FitFactors.Reading.EVERY_EXERCISE;
        try {
            return new FitFactors(test.exercises()).passes(reading, rule.level()) ? Passed.YES : Passed.NO;
        } catch (Refused tooFew) {
            return Passed.NOT_ACCEPTED;
        }
    }
}
