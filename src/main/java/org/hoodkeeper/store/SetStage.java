package org.hoodkeeper.store;

import java.util.EnumSet;
import java.util.Objects;
import java.util.Set;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * Where a set stands in its life. Derived from holds, claims, washes and what bars it, each time it is asked for, and never kept;
 * where several are true, the first of these counts. Acceptance makes a set ready in one step, so that "accepted" is a step of
 * its life and no place to stand. The order is common practice, no source.
 */
public enum SetStage {
    DISPOSED(Hold.Why.DISPOSED),
    /** Kept as found, uncleaned, until the safety officer releases it, withdrawn or not. */
    IMPOUNDED(Hold.Why.IMPOUNDED),
    WITHDRAWN(Hold.Why.WITHDRAWN),
    MISSING(null),
    ISSUED(null),
    /** Delivered, not yet accepted. */
    RECEIVED(Hold.Why.NOT_ACCEPTED),
    UNDER_REPAIR(Hold.Why.UNDER_REPAIR),
    /** Another hold, an open defect, a part that does not belong or is over its life. */
    HELD(null),
    /** In a wash that is under way. */
    CLEANING(null),
    /** Turned up again: how it was handled is unknown. */
    FOUND(null),
    /** Back, and not cleaned for another wearer. */
    RETURNED(null),
    AWAITING_EXAMINATION(null),
    /** Clean, and its flow or its fitness not yet proven since. */
    AWAITING_INSPECTION(null),
    READY(null);

    private static final Set<RequirementKind> HOLDING = EnumSet.of(
            RequirementKind.KIT_HOLD, RequirementKind.PARTS, RequirementKind.PART_LIFE, RequirementKind.FILTER_LIFE);

    private final Hold.@Nullable Why hold;

    SetStage(Hold.@Nullable Why hold) {
        this.hold = hold;
    }

    static SetStage of(ShelfSet set) {
        for (SetStage stage : values()) {
            if (stage.isTrueOf(set)) {
                return stage;
            }
        }
        throw new IllegalStateException("the last one is true of every set");
    }

    private boolean isTrueOf(ShelfSet set) {
        return switch (this) {
            case MISSING -> claims(set, Custody.Claim.MISSING);
            case ISSUED -> claims(set, Custody.Claim.ISSUED);
            case HELD -> set.readiness().barring().stream().anyMatch(reason -> HOLDING.contains(reason.kind()));
            case CLEANING -> set.washing() != null;
            case FOUND -> claims(set, Custody.Claim.FOUND) && bars(set, RequirementKind.CLEAN);
            case RETURNED -> bars(set, RequirementKind.CLEAN);
            case AWAITING_EXAMINATION -> bars(set, RequirementKind.EXAMINATION);
            case AWAITING_INSPECTION -> !set.readiness().barring().isEmpty();
            case READY -> true;
            default -> set.isHeld(Objects.requireNonNull(hold));
        };
    }

    /** What on record makes it so, where that is something that bars or proves; none where it is a claim or a wash. */
    public static @Nullable Reason making(ShelfSet set) {
        SetStage stage = of(set);
        return switch (stage) {
            case MISSING, ISSUED, CLEANING, FOUND -> null;
            case HELD -> first(set, HOLDING);
            case RETURNED -> first(set, EnumSet.of(RequirementKind.CLEAN));
            case AWAITING_EXAMINATION -> first(set, EnumSet.of(RequirementKind.EXAMINATION));
            case AWAITING_INSPECTION -> set.readiness().barring().get(0);
            case READY ->
                set.readiness().reasons().stream()
                        .filter(reason -> reason.kind()
                                == (set.type() != null && set.type().hasFlow()
                                        ? RequirementKind.FLOW
                                        : RequirementKind.EXAMINATION))
                        .findFirst()
                        .orElse(null);
            default ->
                set.readiness().barring().stream()
                        .filter(reason -> reason.details().contains(Objects.requireNonNull(stage.hold)))
                        .findFirst()
                        .orElse(null);
        };
    }

    private static @Nullable Reason first(ShelfSet set, Set<RequirementKind> kinds) {
        return set.readiness().barring().stream()
                .filter(reason -> kinds.contains(reason.kind()))
                .findFirst()
                .orElse(null);
    }

    private static boolean claims(ShelfSet set, Custody.Claim claim) {
        return set.custody() != null && set.custody().fact().claim() == claim;
    }

    private static boolean bars(ShelfSet set, RequirementKind kind) {
        return set.readiness().barring().stream().anyMatch(reason -> reason.kind() == kind);
    }
}
