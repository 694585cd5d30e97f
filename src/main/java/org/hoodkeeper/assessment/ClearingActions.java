package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.assessment.ClearBy.Action;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/** What would clear each barring or open reason, who can do it, and when where a record tells. */
final class ClearingActions {

    private ClearingActions() {}

    static List<ClearBy> of(Question question, Dossier dossier, List<Reason> reasons, Answer.@Nullable Window prefix) {
        List<ClearBy> actions = new ArrayList<>(8);
        for (Reason reason : reasons) {
            if (reason.result().bars() || reason.result() == Result.TO_DO_AT_START) {
                ClearBy action = action(question, dossier, reason);
                if (!actions.contains(action)) {
                    actions.add(action);
                }
            }
        }
        if (prefix != null && prefix.endedBy() != null) {
            actions.add(leaveBefore(prefix.endedBy(), prefix.interval().until()));
        }
        return actions;
    }

    static ClearBy leaveBefore(RequirementKind endedBy, Instant end) {
        return new ClearBy(endedBy, Action.LEAVE_BEFORE, Role.SUPERVISOR, end);
    }

    private static ClearBy action(Question question, Dossier dossier, Reason reason) {
        ClearBy clears = clearing(reason.kind(), reason.why());
        Instant at =
                switch (clears.action()) {
                    case TRAIN -> booked(question, dossier, Kind.TRAINING);
                    case FIT_TEST, MEASURE_FIT -> booked(question, dossier, Kind.FIT_TEST);
                    case RECORD_OUTCOME, EVALUATE_AGAIN -> booked(question, dossier, Kind.MEDICAL_OUTCOME);
                    case SWAP_BATTERY -> batteryEnd(reason);
                    default -> null;
                };
        return at == null ? clears : new ClearBy(clears.kind(), clears.action(), clears.who(), at);
    }

    /**
     * What clears a requirement that came out that way, and who records that: chosen by both, since what a missing limit, an
     * undecided interval or a hold asks for is done by other people than what the requirement itself asks for. Common practice,
     * no source; who records what is that of the record.
     */
    static ClearBy clearing(RequirementKind kind, Why why) {
        return switch (kind) {
            case POSTING -> by(kind, Action.POST, Role.SUPERVISOR);
            case TRAINING -> by(kind, Action.TRAIN, Role.TRAINER);
            case MEDICAL -> medical(kind, why);
            case SYMPTOM_REVIEW -> by(kind, Action.REVIEW_SYMPTOMS, Role.HEALTH);
            case FIT_TEST -> by(kind, Action.FIT_TEST, Role.TRAINER);
            case HAIR_AT_SEAL ->
                switch (why) {
                    case OFFICER_DECIDES -> by(kind, Action.DECIDE, Role.OFFICER);
                    // nobody has seen hair: there is nothing to shave before somebody looks
                    case TO_DO -> by(kind, Action.CHECK_BEFORE_USE, Role.WORKER);
                    default -> by(kind, Action.SHAVE_OR_HOOD, Role.WORKER);
                };
            case PERSON_HOLD -> by(kind, Action.LIFT_SUSPENSION, Role.OFFICER);
            case WEAR_TIME -> by(kind, Action.REST, Role.SUPERVISOR);
            case BASIS -> by(kind, Action.ASSESS_TASK, Role.HYGIENIST);
            case TASK_TRIGGER -> by(kind, why == Why.HELD ? Action.RELEASE_HOLD : Action.CLOSE_TRIGGER, Role.OFFICER);
            case ATMOSPHERE, INTERFACE, ADEQUACY, FILTER -> protection(kind, why);
            case KIT_HOLD -> hold(kind, why);
            // fitted by somebody untrained: an examination since then makes it good
            case PARTS ->
                by(kind, why == Why.FITTED_UNTRAINED ? Action.EXAMINE : Action.FIT_APPROVED_PART, Role.STOREKEEPER);
            case PART_LIFE, FILTER_LIFE ->
                by(
                        kind,
                        why == Why.MISSING || why == Why.PART_AGE_UNKNOWN ? Action.RECORD_PART : Action.FIT_NEW_PART,
                        Role.STOREKEEPER);
            case EXAMINATION -> by(kind, Action.EXAMINE, Role.STOREKEEPER);
            case FLOW ->
                why == Why.MINIMUM_UNKNOWN
                        ? by(kind, Action.COMPLETE_MODEL, Role.OFFICER)
                        : by(kind, Action.CHECK_FLOW, Role.STOREKEEPER);
            case CLEAN ->
                switch (why) {
                    case LAPSED -> by(kind, Action.CLEAN, Role.STOREKEEPER);
                    case IN_WASH -> by(kind, Action.FINISH_WASH, Role.STOREKEEPER);
                    default -> by(kind, Action.DISINFECT, Role.STOREKEEPER);
                };
            case BATTERY -> battery(kind, why);
            // issued to two people in a row it is in nobody's hands for certain: it comes back first
            case ISSUED ->
                by(kind, why == Why.NOT_ISSUED ? Action.ISSUE : Action.TAKE_BACK_AND_ISSUE, Role.STOREKEEPER);
            case PRE_USE_CHECK, PLACEMENT_CHECK, SEAL_CHECK -> by(kind, Action.CHECK_BEFORE_USE, Role.WORKER);
            case AIR_SUPPLY ->
                switch (why) {
                    case NO_SUPPLY -> by(kind, Action.CONNECT_SUPPLY, Role.STOREKEEPER);
                    case DECISION_MISSING -> by(kind, Action.SITE_DECIDES, Role.OFFICER);
                    default -> by(kind, Action.TEST_AIR, Role.STOREKEEPER);
                };
            case AIR_PURIFIER -> by(kind, Action.CHANGE_PURIFIER, Role.STOREKEEPER);
            // the air may be good and the hold stand for something else: a test alone releases nothing
            case SUPPLY_HOLD -> by(kind, Action.RELEASE_HOLD, Role.STOREKEEPER);
        };
    }

    private static ClearBy medical(RequirementKind kind, Why why) {
        return switch (why) {
            case WEAR_LIMIT -> by(kind, Action.REST, Role.SUPERVISOR);
            case HEAT_LIMIT -> by(kind, Action.WAIT_FOR_COOLER, Role.SUPERVISOR);
            case WORK_RATE_LIMIT -> by(kind, Action.LIGHTER_WORK, Role.SUPERVISOR);
            case INTERFACE_EXCLUDED -> by(kind, Action.CHOOSE_ALLOWED_KIND, Role.OFFICER);
            // the outcome is on record, and says no
            case UNFIT, TEMPORARILY_UNFIT -> by(kind, Action.EVALUATE_AGAIN, Role.HEALTH);
            case ASK_OFFICER -> by(kind, Action.DECIDE, Role.OFFICER);
            default -> by(kind, Action.RECORD_OUTCOME, Role.HEALTH);
        };
    }

    /** Where a figure is missing no device protects more, and where no filter may be relied on no other one does. */
    private static ClearBy protection(RequirementKind kind, Why why) {
        return switch (why) {
            case IDLH, OXYGEN_DEFICIENT, ATMOSPHERE_UNKNOWN, CLASS_NOT_NAMED ->
                kind == RequirementKind.ADEQUACY || why == Why.CLASS_NOT_NAMED
                        ? by(kind, Action.USE_NAMED_CLASS, Role.OFFICER)
                        : by(kind, Action.USE_BREATHING_APPARATUS, Role.OFFICER);
            case LIMIT_UNKNOWN -> by(kind, Action.RECORD_LIMIT, Role.HYGIENIST);
            case UNIT_DIFFERS -> by(kind, Action.MATCH_UNITS, Role.HYGIENIST);
            case CLASS_UNKNOWN -> by(kind, Action.COMPLETE_MODEL, Role.OFFICER);
            case MISSING ->
                kind == RequirementKind.INTERFACE
                        ? by(kind, Action.COMPLETE_MODEL, Role.OFFICER)
                        : by(kind, Action.ASSESS_TASK, Role.HYGIENIST);
            case NOT_FOR_TASK -> by(kind, Action.CHOOSE_ALLOWED_KIND, Role.OFFICER);
            case OTHER_VARIANT -> by(kind, Action.TAKE_ANOTHER_SET, Role.STOREKEEPER);
            case AIR_FED_ONLY, BEYOND_FILTER -> by(kind, Action.TAKE_SUPPLIED_AIR, Role.OFFICER);
            case FIT_TEST_SHORT -> by(kind, Action.MEASURE_FIT, Role.TRAINER);
            case FILTER_SHORT -> by(kind, Action.CHOOSE_OTHER_FILTER, Role.OFFICER);
            default -> by(kind, Action.CHOOSE_HIGHER_CLASS, Role.OFFICER);
        };
    }

    private static ClearBy hold(RequirementKind kind, Why why) {
        return switch (why) {
            case DEFECT_OPEN -> by(kind, Action.MEND_OR_SWAP, Role.STOREKEEPER);
            // the check speaks, not a hold that could be released
            case FAILED -> by(kind, Action.EXAMINE, Role.STOREKEEPER);
            case SET_MISSING, NOT_RECEIVED -> by(kind, Action.TAKE_ANOTHER_SET, Role.STOREKEEPER);
            default -> by(kind, Action.RELEASE_OR_SWAP, Role.STOREKEEPER);
        };
    }

    private static ClearBy battery(RequirementKind kind, Why why) {
        return switch (why) {
            case NOT_TESTED, LAPSED -> by(kind, Action.TEST_BATTERY, Role.STOREKEEPER);
            case LOAD_UNKNOWN -> by(kind, Action.SITE_DECIDES, Role.OFFICER);
            case MISSING -> by(kind, Action.COMPLETE_MODEL, Role.OFFICER);
            default -> by(kind, Action.SWAP_BATTERY, Role.WORKER);
        };
    }

    private static ClearBy by(RequirementKind kind, Action action, Role who) {
        return new ClearBy(kind, action, who, null);
    }

    private static @Nullable Instant batteryEnd(Reason reason) {
        return (reason.why() == Why.BATTERY_ENDS || reason.why() == Why.BATTERY_MEASURED)
                        && reason.details().size() > 1
                        && reason.details().get(1) instanceof Instant end
                ? end
                : null;
    }

    /** The next booked seat from what is known on, where one is booked. */
    private static @Nullable Instant booked(Question question, Dossier dossier, Kind what) {
        Instant earliest = null;
        for (Told<Booking> booking : dossier.worker().bookings()) {
            if (booking.fact().what() == what && !booking.from().isBefore(question.knownAt())) {
                earliest = booking.from();
            }
        }
        return earliest;
    }
}
