package org.hoodkeeper.store;

import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.Hold;

/** What the store can do with a set. */
public enum SetStep {
    ACCEPT("acceptance"),
    ISSUE("issue"),
    RETURN("return"),
    CLEAN("cleaning"),
    EXAMINE("examination"),
    FLOW_CHECK("flow-check"),
    TEST_BATTERY("battery-test"),
    CHANGE_PART("part"),
    DEFECT("defect"),
    MEND("mend"),
    HOLD("hold"),
    RELEASE("release"),
    MISSING("missing"),
    FOUND("found"),
    DISPOSE("disposal");

    private static final int NEXT = 3;

    /** What is kept as found waits for the officer. */
    private static final List<SetStep> AS_FOUND = List.of(RELEASE, HOLD, MISSING);

    private final String path;

    SetStep(String path) {
        this.path = path;
    }

    /** What is done, as one word of an address. */
    public String path() {
        return path;
    }

    /** The three that make sense now: what clears the first reasons, then what is usual where it stands. */
    public static List<SetStep> next(ShelfSet set) {
        Set<SetStep> steps = new LinkedHashSet<>();
        switch (set.state()) {
            case OUT -> steps.addAll(List.of(RETURN, DEFECT, MISSING));
            case MISSING -> steps.add(FOUND);
            case WITHDRAWN ->
                steps.addAll(set.stage() == SetStage.IMPOUNDED ? AS_FOUND : List.of(DISPOSE, MISSING, HOLD));
            case READY, LAST_WEARER -> steps.addAll(List.of(ISSUE, CLEAN, FLOW_CHECK));
            case BLOCKED -> steps.addAll(atTheBench(set));
        }
        if (set.state() == ShelfSet.State.BLOCKED) {
            steps.addAll(List.of(CLEAN, EXAMINE, HOLD));
        }
        steps.retainAll(possible(set));
        return steps.stream().limit(NEXT).toList();
    }

    /** What lies in a wash waits for its end. */
    private static List<SetStep> atTheBench(ShelfSet set) {
        return switch (set.stage()) {
            case IMPOUNDED -> AS_FOUND;
            case CLEANING -> List.of(DEFECT, CHANGE_PART, HOLD);
            default -> List.copyOf(clearing(set));
        };
    }

    /** A hold is lifted when everything else has been put right. */
    static Set<SetStep> clearing(ShelfSet set) {
        Set<SetStep> steps = new LinkedHashSet<>();
        set.readiness().barring().forEach(reason -> steps.add(clearing(reason)));
        if (steps.remove(RELEASE)) {
            steps.add(RELEASE);
        }
        return steps;
    }

    /** Everything that can be recorded of it where it stands; what is impossible there is left out. */
    public static Set<SetStep> possible(ShelfSet set) {
        EnumSet<SetStep> steps = EnumSet.allOf(SetStep.class);
        SetStage stage = set.stage();
        if (stage == SetStage.DISPOSED) {
            return EnumSet.noneOf(SetStep.class);
        }
        if (stage != SetStage.WITHDRAWN || set.isHeld(Hold.Why.IMPOUNDED)) {
            steps.remove(DISPOSE);
        }
        if (set.isHeld(Hold.Why.IMPOUNDED)) {
            steps.removeAll(EnumSet.of(CLEAN, CHANGE_PART, MEND));
        }
        if (set.washing() != null) {
            steps.removeAll(EnumSet.of(CLEAN, ISSUE));
        }
        switch (set.state()) {
            case OUT -> steps.removeAll(EnumSet.of(ISSUE, FOUND));
            case MISSING -> steps.removeAll(EnumSet.of(ISSUE, RETURN, MISSING));
            case READY, LAST_WEARER, BLOCKED, WITHDRAWN -> steps.removeAll(EnumSet.of(RETURN, FOUND));
        }
        if (set.state() == ShelfSet.State.WITHDRAWN || set.state() == ShelfSet.State.BLOCKED) {
            steps.remove(ISSUE);
        }
        if (!set.isHeld(Hold.Why.NOT_ACCEPTED)) {
            steps.remove(ACCEPT);
        } else {
            steps.retainAll(EnumSet.of(ACCEPT, HOLD, DEFECT, CHANGE_PART));
        }
        if (set.type() == null || !set.type().hasFlow()) {
            steps.remove(FLOW_CHECK);
        }
        if (set.type() == null || !set.type().hasBlower()) {
            steps.remove(TEST_BATTERY);
        }
        if (set.readiness().barring().stream().noneMatch(reason -> reason.why() == Why.HELD)) {
            steps.remove(RELEASE);
        }
        if (set.readiness().barring().stream().noneMatch(reason -> reason.why() == Why.DEFECT_OPEN)) {
            steps.remove(MEND);
        }
        return steps;
    }

    /** What the store does about a reason of the kit's side. */
    public static SetStep clearing(Reason reason) {
        return switch (reason.kind()) {
            case KIT_HOLD ->
                switch (reason.why()) {
                    case DEFECT_OPEN -> MEND;
                    case SET_MISSING -> FOUND;
                    default -> reason.details().contains(Hold.Why.NOT_ACCEPTED) ? ACCEPT : RELEASE;
                };
            case PARTS, PART_LIFE, FILTER_LIFE -> CHANGE_PART;
            case FLOW -> FLOW_CHECK;
            case BATTERY -> TEST_BATTERY;
            case CLEAN -> CLEAN;
            default -> EXAMINE;
        };
    }
}
