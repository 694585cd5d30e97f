package org.hoodkeeper.facts;

import java.util.Set;

/**
 * The kinds of record. The number is what the ledger stores: it never changes and is never given twice.
 *
 * <p>{@link #privateFields()} identify a person beyond the ids, or carry free text: they lie beside the ledger, where an
 * erasure can reach them, and the record holds their digest.
 */
public enum Kind {
    TRAINING(1, Subject.WORKER, Training.class, Set.of("trainer")),
    MEDICAL_OUTCOME(2, Subject.WORKER, MedicalOutcome.class, Set.of("organisation")),
    FIT_TEST(3, Subject.WORKER, FitTest.class, Set.of("tester")),
    FLOW_CHECK(4, Subject.SET, FlowCheck.class, Set.of()),
    CUSTODY(5, Subject.SET, Custody.class, Set.of("note")),
    BOOKING(6, Subject.WORKER, Booking.class, Set.of("lateBecause")),
    POSTING(7, Subject.WORKER, Posting.class, Set.of()),
    HOLD(8, Subject.ANY, Hold.class, Set.of("reason")),
    SYMPTOM_REPORT(9, Subject.WORKER, SymptomReport.class, Set.of("note")),
    OBSERVATION(10, Subject.WORKER, Observation.class, Set.of("note")),
    WEAR(11, Subject.WORKER, Wear.class, Set.of()),
    PRE_USE_CHECK(12, Subject.SET, PreUseCheck.class, Set.of("note")),
    EXAMINATION(13, Subject.SET, Examination.class, Set.of("examiner", "note")),
    CLEANING(14, Subject.SET, Cleaning.class, Set.of()),
    PART_CHANGE(15, Subject.SET, PartChange.class, Set.of("fitter")),
    DEFECT(16, Subject.SET, Defect.class, Set.of("note")),
    CALIBRATION(17, Subject.INSTRUMENT, Calibration.class, Set.of()),
    AIR_TEST(18, Subject.SUPPLY, AirTest.class, Set.of("tester")),
    SUPPLY_MOVE(19, Subject.SUPPLY, SupplyMove.class, Set.of()),
    TASK_TRIGGER(20, Subject.TASK, TaskTrigger.class, Set.of("note")),
    TASK_BASIS(21, Subject.TASK, TaskBasis.class, Set.of("note", "assessor", "whyBelow")),
    EXPOSURE_RESULT(22, Subject.TASK, ExposureResult.class, Set.of("person", "laboratory")),
    MEASURED_CONDITION(23, Subject.TASK, MeasuredCondition.class, Set.of()),
    LIMIT(24, Subject.SITE, Limit.class, Set.of()),
    MODEL(25, Subject.MODEL, ModelData.class, Set.of()),
    SET(26, Subject.SET, SetData.class, Set.of()),
    SITE_DECISION(27, Subject.SITE, SiteDecision.class, Set.of("owner", "reason")),
    EMPLOYMENT(28, Subject.WORKER, Employment.class, Set.of()),
    LEGAL_HOLD(29, Subject.ANY, LegalHold.class, Set.of("reason")),
    ERASURE(30, Subject.SITE, Erasure.class, Set.of()),
    FINDING(31, Subject.WORKER, Finding.class, Set.of("owner", "action")),
    STOCK_RECEIPT(48, Subject.SITE, StockReceipt.class, Set.of()),
    STOCK_USE(49, Subject.SITE, StockUse.class, Set.of()),
    STOCK_COUNT(50, Subject.SITE, StockCount.class, Set.of()),
    BATTERY_TEST(51, Subject.SET, BatteryTest.class, Set.of("tester")),
    PURIFIER_TAG(46, Subject.SUPPLY, PurifierTag.class, Set.of("changedBy")),
    PARTICULARS(47, Subject.SITE, Particulars.class, Set.of("employer", "address")),
    RECALL(41, Subject.SITE, Recall.class, Set.of("reason")),
    LOOK_BACK(42, Subject.SITE, LookBack.class, Set.of("reason")),
    RECALL_DECISION(43, Subject.SET, RecallDecision.class, Set.of("reason")),
    GUIDED_WORK(60, Subject.SET, GuidedWork.class, Set.of("note")),
    GUIDE_STEP_WORDS(61, Subject.MODEL, GuideStepWords.class, Set.of("reason")),
    ACCEPTANCE(62, Subject.SET, Acceptance.class, Set.of("note")),
    WASH_STEP(63, Subject.SITE, WashStep.class, Set.of());

    private final int number;
    private final Subject subject;
    private final Class<? extends Fact> type;
    private final Set<String> privateFields;

    Kind(int number, Subject subject, Class<? extends Fact> type, Set<String> privateFields) {
        this.number = number;
        this.subject = subject;
        this.type = type;
        this.privateFields = privateFields;
    }

    public int number() {
        return number;
    }

    public Subject subject() {
        return subject;
    }

    public Class<? extends Fact> type() {
        return type;
    }

    public Set<String> privateFields() {
        return privateFields;
    }

    /** Medical kinds stay behind the wall: outcome for those whom duty lets see it, notes for the health role alone. */
    public boolean isMedical() {
        return this == MEDICAL_OUTCOME || this == SYMPTOM_REPORT;
    }

    /** Whether a record of this kind may say that something begins at a later time; an event may not lie ahead. */
    public boolean mayBeginLater() {
        return switch (this) {
            case BOOKING, POSTING, TASK_BASIS, LIMIT, MODEL, SITE_DECISION, EMPLOYMENT -> true;
            default -> false;
        };
    }

    public static Kind ofNumber(int number) {
        for (Kind kind : values()) {
            if (kind.number == number) {
                return kind;
            }
        }
        throw new IllegalArgumentException("no kind of record has the number " + number);
    }

    public static Kind of(Fact fact) {
        for (Kind kind : values()) {
            if (kind.type.isInstance(fact)) {
                return kind;
            }
        }
        throw new IllegalArgumentException("no kind of record for " + fact.getClass());
    }
}
