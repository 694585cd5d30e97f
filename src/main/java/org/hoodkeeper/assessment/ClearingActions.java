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
        RequirementKind kind = reason.kind();
        return switch (kind) {
            case POSTING -> by(kind, Action.POST, Role.SUPERVISOR);
            case TRAINING -> new ClearBy(kind, Action.TRAIN, Role.TRAINER, booked(question, dossier, Kind.TRAINING));
            case MEDICAL -> medical(question, dossier, reason);
            case SYMPTOM_REVIEW -> by(kind, Action.REVIEW_SYMPTOMS, Role.HEALTH);
            case FIT_TEST -> new ClearBy(kind, Action.FIT_TEST, Role.TRAINER, booked(question, dossier, Kind.FIT_TEST));
            case HAIR_AT_SEAL ->
                reason.why() == Why.OFFICER_DECIDES
                        ? by(kind, Action.DECIDE, Role.OFFICER)
                        : by(kind, Action.SHAVE_OR_HOOD, Role.WORKER);
            case PERSON_HOLD -> by(kind, Action.LIFT_SUSPENSION, Role.OFFICER);
            case WEAR_TIME -> by(kind, Action.REST, Role.SUPERVISOR);
            case BASIS -> by(kind, Action.ASSESS_TASK, Role.HYGIENIST);
            case TASK_TRIGGER -> by(kind, Action.CLOSE_TRIGGER, Role.OFFICER);
            case ATMOSPHERE -> by(kind, Action.USE_BREATHING_APPARATUS, Role.OFFICER);
            case INTERFACE, ADEQUACY -> by(kind, Action.CHOOSE_HIGHER_CLASS, Role.OFFICER);
            case FILTER -> by(kind, Action.CHOOSE_OTHER_FILTER, Role.OFFICER);
            case KIT_HOLD -> by(kind, Action.RELEASE_OR_SWAP, Role.STOREKEEPER);
            case PARTS, PART_LIFE, FILTER_LIFE -> by(kind, Action.FIT_APPROVED_PART, Role.STOREKEEPER);
            case EXAMINATION -> by(kind, Action.EXAMINE, Role.STOREKEEPER);
            case FLOW -> by(kind, Action.CHECK_FLOW, Role.STOREKEEPER);
            case CLEAN -> by(kind, reason.why() == Why.LAPSED ? Action.CLEAN : Action.DISINFECT, Role.STOREKEEPER);
            case BATTERY -> battery(reason);
            case ISSUED -> by(kind, Action.ISSUE, Role.STOREKEEPER);
            case PRE_USE_CHECK, PLACEMENT_CHECK, SEAL_CHECK -> by(kind, Action.CHECK_BEFORE_USE, Role.WORKER);
            case AIR_PURIFIER -> by(kind, Action.CHANGE_PURIFIER, Role.STOREKEEPER);
            case AIR_SUPPLY, SUPPLY_HOLD -> by(kind, Action.TEST_AIR, Role.STOREKEEPER);
        };
    }

    private static ClearBy battery(Reason reason) {
        return switch (reason.why()) {
            case NOT_TESTED, LAPSED -> by(reason.kind(), Action.TEST_BATTERY, Role.STOREKEEPER);
            case LOAD_UNKNOWN -> by(reason.kind(), Action.DECIDE, Role.OFFICER);
            default -> new ClearBy(reason.kind(), Action.SWAP_BATTERY, Role.WORKER, batteryEnd(reason));
        };
    }

    private static ClearBy medical(Question question, Dossier dossier, Reason reason) {
        return switch (reason.why()) {
            case WEAR_LIMIT -> by(reason.kind(), Action.REST, Role.SUPERVISOR);
            case HEAT_LIMIT -> by(reason.kind(), Action.WAIT_FOR_COOLER, Role.SUPERVISOR);
            default ->
                new ClearBy(
                        reason.kind(),
                        Action.RECORD_OUTCOME,
                        Role.HEALTH,
                        booked(question, dossier, Kind.MEDICAL_OUTCOME));
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
