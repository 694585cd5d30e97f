package org.hoodkeeper.evidence;

import static org.hoodkeeper.kernel.Role.HEALTH;
import static org.hoodkeeper.kernel.Role.HYGIENIST;
import static org.hoodkeeper.kernel.Role.OFFICER;
import static org.hoodkeeper.kernel.Role.STOREKEEPER;
import static org.hoodkeeper.kernel.Role.SUPERVISOR;
import static org.hoodkeeper.kernel.Role.TRAINER;

import java.util.Set;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.History;

/**
 * Who may correct or withdraw a record: whoever records that kind, and the safety officer; what is medical, the health role
 * alone. A worker may put right what that worker told.
 */
public final class Entitled {

    private Entitled() {}

    public static boolean toCorrect(Viewer viewer, History.Version version) {
        Kind kind = version.kind();
        if (kind.isMedical()) {
            return viewer.is(HEALTH);
        }
        if (kind == Kind.ERASURE || kind == Kind.FINDING || kind == Kind.LOOK_BACK) {
            // an erasure cannot be undone by words; a finding is given or closed anew, a look-back decided anew
            return false;
        }
        if (version.told().fact() instanceof Hold hold
                && hold.why() == Hold.Why.RECALL
                && version.told().scope() != null) {
            // it follows from the recall and from the set's parts
            return false;
        }
        boolean own = version.toldBy().equals(viewer.account());
        return viewer.is(OFFICER)
                || recorders(version.told().fact()).stream().anyMatch(viewer::is)
                || (own && viewer.is(Role.WORKER) && byWorker(kind));
    }

    private static boolean byWorker(Kind kind) {
        return kind == Kind.WEAR || kind == Kind.PRE_USE_CHECK || kind == Kind.DEFECT;
    }

    private static Set<Role> recorders(Fact fact) {
        if (fact instanceof Hold hold) {
            return switch (hold.why()) {
                case SUSPENDED -> Set.of(SUPERVISOR);
                // acceptance ends the one, the safety officer the other: neither is got rid of by taking its record
                // back
                case NOT_ACCEPTED, IMPOUNDED -> Set.of();
                default -> Set.of(STOREKEEPER);
            };
        }
        return recorders(Kind.of(fact));
    }

    /** Who records a kind, beside the safety officer; for holds, what a role does not record is left out record by record. */
    public static Set<Role> recorders(Kind kind) {
        return switch (kind) {
            case TRAINING, FIT_TEST, BOOKING -> Set.of(TRAINER);
            case OBSERVATION -> Set.of(SUPERVISOR, TRAINER);
            case POSTING, WEAR -> Set.of(SUPERVISOR);
            case HOLD -> Set.of(SUPERVISOR, STOREKEEPER);
            case FLOW_CHECK,
                    CUSTODY,
                    PRE_USE_CHECK,
                    EXAMINATION,
                    CLEANING,
                    PART_CHANGE,
                    DEFECT,
                    CALIBRATION,
                    AIR_TEST,
                    SUPPLY_MOVE,
                    SET,
                    STOCK_RECEIPT,
                    STOCK_USE,
                    STOCK_COUNT,
                    GUIDED_WORK,
                    RECALL,
                    ACCEPTANCE,
                    BATTERY_TEST,
                    PURIFIER_TAG,
                    WASH_STEP -> Set.of(STOREKEEPER);
            case TASK_TRIGGER, MEASURED_CONDITION -> Set.of(HYGIENIST, SUPERVISOR);
            case TASK_BASIS, EXPOSURE_RESULT, LIMIT -> Set.of(HYGIENIST);
            case MODEL,
                    GUIDE_STEP_WORDS,
                    SITE_DECISION,
                    PARTICULARS,
                    EMPLOYMENT,
                    LEGAL_HOLD,
                    ERASURE,
                    FINDING,
                    LOOK_BACK,
                    RECALL_DECISION -> Set.of();
            case MEDICAL_OUTCOME, SYMPTOM_REPORT -> Set.of(HEALTH);
        };
    }
}
