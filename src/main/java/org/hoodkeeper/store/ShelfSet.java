package org.hoodkeeper.store;

import java.time.Instant;
import org.hoodkeeper.assessment.Readiness;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;

/**
 * A set as the store sees it.
 *
 * @param model the model's code
 * @param data what the set is; none where nothing is on record
 * @param modelData what the maker says of the model; none where nothing is on record
 * @param custody the last claim on it; none where there is none
 * @param washing the last step of the wash that it lies in; none where it lies in none
 */
public record ShelfSet(
        SetId id,
        String label,
        String model,
        @Nullable SetData data,
        @Nullable ModelData modelData,
        @Nullable Told<Custody> custody,
        @Nullable Told<WashStep> washing,
        Readiness readiness) {

    /** Where the set stands, in the order in which the bench lists it. */
    public enum State {
        /** In the store, and something has to be done before anybody may have it. */
        BLOCKED,
        MISSING,
        /** In the store, good for the one who wore it last. */
        LAST_WEARER,
        READY,
        /** In somebody's hands. */
        OUT,
        WITHDRAWN
    }

    public State state() {
        if (isHeld(Hold.Why.WITHDRAWN) || isHeld(Hold.Why.DISPOSED)) {
            return State.WITHDRAWN;
        }
        Custody.Claim claim = custody == null ? null : custody.fact().claim();
        if (claim == Custody.Claim.MISSING) {
            return State.MISSING;
        }
        if (claim == Custody.Claim.ISSUED) {
            return State.OUT;
        }
        if (washing != null) {
            return State.BLOCKED;
        }
        return switch (readiness.state()) {
            case READY -> State.READY;
            case READY_FOR_LAST_WEARER -> State.LAST_WEARER;
            case NOT_READY -> State.BLOCKED;
        };
    }

    /** Ready or not, it is kept for an emergency and is nobody's set for a shift. */
    public boolean isForEmergencies() {
        return data != null && data.emergency();
    }

    /** Whether an open hold of that sort lies on it. */
    public boolean isHeld(Hold.Why why) {
        return readiness.barring().stream()
                .anyMatch(reason ->
                        !reason.details().isEmpty() && reason.details().get(0) == why);
    }

    /** Where it stands in its life. */
    public SetStage stage() {
        return SetStage.of(this);
    }

    /** Who has it in hand; none while nobody has. */
    public @Nullable WorkerId holder() {
        return custody != null && custody.fact().claim() == Custody.Claim.ISSUED ? custody.worker() : null;
    }

    public @Nullable Instant since() {
        return custody == null ? null : custody.from();
    }

    public String size() {
        return data == null ? "" : data.size();
    }

    public @Nullable InterfaceType type() {
        return modelData == null ? null : modelData.type();
    }
}
