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

    public enum Action {
        POST,
        TRAIN,
        RECORD_OUTCOME,
        REVIEW_SYMPTOMS,
        FIT_TEST,
        SHAVE_OR_HOOD,
        DECIDE,
        LIFT_SUSPENSION,
        REST,
        ASSESS_TASK,
        CLOSE_TRIGGER,
        CHOOSE_HIGHER_CLASS,
        CHOOSE_OTHER_FILTER,
        USE_BREATHING_APPARATUS,
        RELEASE_OR_SWAP,
        FIT_APPROVED_PART,
        EXAMINE,
        CHECK_FLOW,
        DISINFECT,
        CLEAN,
        SWAP_BATTERY,
        TEST_BATTERY,
        ISSUE,
        CHECK_BEFORE_USE,
        TEST_AIR,
        CHANGE_PURIFIER,
        WAIT_FOR_COOLER,
        /** Leave the area before the instant. */
        LEAVE_BEFORE
    }
}
