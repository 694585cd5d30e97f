package org.hoodkeeper.evidence;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import org.hoodkeeper.facts.Acceptance;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Finding;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.LookBack;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.Particulars;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.RecallDecision;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.StockCount;
import org.hoodkeeper.facts.StockReceipt;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * What a record must look like before it may be told, the same for a form and for a line of a file. Looks at the record alone
 * and asks nobody; what depends on other records is refused by the doors.
 *
 * <p>Every refusal's code is {@code kind.field.problem}: the second part is the field to which it belongs. The ranges are what
 * can happen at all on a work site, not what is good; no source but common sense.
 */
public final class Accept {

    private Accept() {}

    /** @throws Refused when a value is missing, out of its believable range or does not go with another */
    public static void fact(Fact fact) {
        switch (Kind.of(fact)) {
            case TRAINING -> PersonShapes.training((Training) fact);
            case MEDICAL_OUTCOME -> PersonShapes.medical((MedicalOutcome) fact);
            case FIT_TEST -> PersonShapes.fitTest((FitTest) fact);
            case BOOKING -> PersonShapes.booking((Booking) fact);
            case SYMPTOM_REPORT -> PersonShapes.symptom((SymptomReport) fact);
            case OBSERVATION -> PersonShapes.observation((Observation) fact);
            case HOLD -> PersonShapes.hold((Hold) fact);
            case FLOW_CHECK -> CareShapes.flowCheck((FlowCheck) fact);
            case CUSTODY -> Shape.note(((Custody) fact).note(), "note");
            case PRE_USE_CHECK -> CareShapes.preUseCheck((PreUseCheck) fact);
            case EXAMINATION -> CareShapes.examination((Examination) fact);
            case CLEANING -> CareShapes.cleaning((Cleaning) fact);
            case PART_CHANGE -> CareShapes.partChange((PartChange) fact);
            case DEFECT -> CareShapes.defect((Defect) fact);
            case CALIBRATION -> CareShapes.calibration((Calibration) fact);
            case AIR_TEST -> CareShapes.airTest((AirTest) fact);
            case SUPPLY_MOVE -> Shape.present(((SupplyMove) fact).place(), "supplyMove.place.missing");
            case TASK_TRIGGER -> TaskShapes.trigger((TaskTrigger) fact);
            case TASK_BASIS -> TaskShapes.basis((TaskBasis) fact);
            case EXPOSURE_RESULT -> TaskShapes.exposure((ExposureResult) fact);
            case MEASURED_CONDITION -> TaskShapes.condition((MeasuredCondition) fact);
            case LIMIT -> TaskShapes.limit((Limit) fact);
            case MODEL -> ModelShapes.model((ModelData) fact);
            case SET -> ModelShapes.set((SetData) fact);
            case STOCK_RECEIPT -> CareShapes.stockReceipt((StockReceipt) fact);
            case STOCK_USE -> CareShapes.stockUse((StockUse) fact);
            case STOCK_COUNT -> CareShapes.stockCount((StockCount) fact);
            case RECALL -> Recalls.shape((Recall) fact);
            case LOOK_BACK -> {
                Shape.present(((LookBack) fact).reason(), "lookBack.reason.missing");
                Shape.note(((LookBack) fact).reason(), "reason");
            }
            case RECALL_DECISION -> Shape.note(((RecallDecision) fact).reason(), "reason");
            case GUIDED_WORK -> CareShapes.guided((GuidedWork) fact);
            case GUIDE_STEP_WORDS -> CareShapes.stepWords((GuideStepWords) fact);
            case BATTERY_TEST -> CareShapes.batteryTest((BatteryTest) fact);
            case PURIFIER_TAG -> CareShapes.purifier((PurifierTag) fact);
            case PARTICULARS -> CareShapes.particulars((Particulars) fact);
            case WASH_STEP -> Shape.within(((WashStep) fact).celsius(), "0", "100", "wash.celsius.range");
            case ACCEPTANCE -> CareShapes.acceptance((Acceptance) fact);
            case EMPLOYMENT -> PersonShapes.employment((Employment) fact);
            case LEGAL_HOLD -> PersonShapes.legalHold((LegalHold) fact);
            case FINDING -> PersonShapes.finding((Finding) fact);
            case POSTING, WEAR, SITE_DECISION, ERASURE -> {
                // nothing to see without their instants, or judged by the rule set's own description
            }
        }
    }

    /** @throws Refused {@code record.at.range} before 1950 or after 2150: a slip of the hand */
    public static void at(Instant at) {
        Shape.at(at);
    }

    /** @throws Refused {@code posting.until.order} when it ends before it starts */
    public static void posting(Instant from, @Nullable Instant until) {
        at(from);
        if (until != null) {
            at(until);
            if (!until.isAfter(from)) {
                throw new Refused("posting.until.order", from, until);
            }
        }
    }

    /**
     * Somebody who goes in and comes out at once, on an alarm for instance, has worn it for seconds.
     *
     * @throws Refused {@code wear.until.order}, or {@code wear.minutes.range} above 1,440 minutes
     */
    public static void wear(Instant from, Instant until) {
        at(from);
        at(until);
        if (!until.isAfter(from)) {
            throw new Refused("wear.until.order", from, until);
        }
        long minutes = Duration.between(from, until).toMinutes();
        if (minutes > 1_440) {
            throw new Refused("wear.minutes.range", minutes, 0, 1_440);
        }
    }

    /**
     * Whether a fit test was done in negative-pressure mode. A mask without blower or supplied air has no other mode; for one
     * that has, the tester must say, since a test with the blower running does not count: 29 CFR 1910.134(f)(8).
     *
     * @param said what the tester said; none where nothing was said
     * @throws Refused {@code fitTest.negativeMode.missing}, {@code fitTest.model.loose} for a hood
     */
    public static boolean negativeMode(@Nullable Boolean said, InterfaceType type) {
        fitTested(type);
        if (type.hasBlower() || !type.filtersRoomAir()) {
            if (said == null) {
                throw new Refused("fitTest.negativeMode.missing", type);
            }
            return said;
        }
        return true;
    }

    /** @throws Refused {@code fitTest.model.loose} for a hood, which has no seal to test */
    static void fitTested(InterfaceType type) {
        if (!type.isTightFitting()) {
            throw new Refused("fitTest.model.loose", type);
        }
    }

    /** @throws Refused {@code medical.reviewOn.before} when the review day lies before the day of the outcome */
    public static void reviewDay(MedicalOutcome outcome, LocalDate day) {
        if (outcome.reviewOn() != null && outcome.reviewOn().isBefore(day)) {
            throw new Refused("medical.reviewOn.before", outcome.reviewOn(), day);
        }
    }
}
