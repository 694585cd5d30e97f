package org.hoodkeeper.assessment;

import java.time.Instant;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * What would clear a requirement and who can do it.
 *
 * @param at only where a record says when: a booked seat, the end of the plan that is still good
 */
public record ClearBy(
        RequirementKind kind,
        Action action,
        Role who,
        @Nullable Instant at) {

    /** Whether it is what this reason asks for: two reasons of one requirement may ask for different things. */
    public boolean clears(Reason reason) {
        ClearBy asked = ClearingActions.clearing(reason.kind(), reason.why());
        return kind == asked.kind() && action == asked.action();
    }

    public enum Action {
        POST,
        TRAIN,
        RECORD_OUTCOME,
        /** The outcome on record says no; only another one says otherwise. */
        EVALUATE_AGAIN,
        LIGHTER_WORK,
        REVIEW_SYMPTOMS,
        FIT_TEST,
        /** With figures: by taste or smell it would prove no more than before. */
        MEASURE_FIT,
        SHAVE_OR_HOOD,
        /** About one person or device. */
        DECIDE,
        /** About the whole site: an interval, a share. */
        SITE_DECIDES,
        LIFT_SUSPENSION,
        REST,
        ASSESS_TASK,
        RECORD_LIMIT,
        MATCH_UNITS,
        CLOSE_TRIGGER,
        /** Of what is no set: a task, an air supply. */
        RELEASE_HOLD,
        CHOOSE_HIGHER_CLASS,
        CHOOSE_ALLOWED_KIND,
        CHOOSE_OTHER_FILTER,
        TAKE_SUPPLIED_AIR,
        USE_BREATHING_APPARATUS,
        /** Of the classes that the rules name for an immediately dangerous air. */
        USE_NAMED_CLASS,
        COMPLETE_MODEL,
        RELEASE_OR_SWAP,
        MEND_OR_SWAP,
        TAKE_ANOTHER_SET,
        FIT_APPROVED_PART,
        FIT_NEW_PART,
        /** What is fitted is not on record, or not when it was made. */
        RECORD_PART,
        EXAMINE,
        CHECK_FLOW,
        DISINFECT,
        CLEAN,
        FINISH_WASH,
        SWAP_BATTERY,
        TEST_BATTERY,
        ISSUE,
        TAKE_BACK_AND_ISSUE,
        CHECK_BEFORE_USE,
        CONNECT_SUPPLY,
        TEST_AIR,
        CHANGE_PURIFIER,
        WAIT_FOR_COOLER,
        /** Leave the area before the instant. */
        LEAVE_BEFORE
    }
}
