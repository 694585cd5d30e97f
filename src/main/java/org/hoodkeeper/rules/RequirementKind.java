package org.hoodkeeper.rules;

/**
 * What can be required of person, task, kit and supply. Each kind declares how it reads history, so that a loader offers
 * exactly those records, and whether it can only be met at the start of wear.
 */
public enum RequirementKind {
    POSTING(Side.PERSON, Reading.IN_FORCE, When.THROUGHOUT),
    TRAINING(Side.PERSON, Reading.ANY_VALID, When.THROUGHOUT),
    MEDICAL(Side.PERSON, Reading.LATEST, When.THROUGHOUT),
    SYMPTOM_REVIEW(Side.PERSON, Reading.ALL_OPEN, When.THROUGHOUT),
    FIT_TEST(Side.PERSON, Reading.ANY_VALID, When.THROUGHOUT),
    HAIR_AT_SEAL(Side.PERSON, Reading.LATEST, When.AT_START),
    PERSON_HOLD(Side.PERSON, Reading.ALL_OPEN, When.THROUGHOUT),
    WEAR_TIME(Side.PERSON, Reading.SUM_IN_WINDOW, When.THROUGHOUT),

    BASIS(Side.TASK, Reading.IN_FORCE, When.THROUGHOUT),
    TASK_TRIGGER(Side.TASK, Reading.ALL_OPEN, When.THROUGHOUT),
    ATMOSPHERE(Side.TASK, Reading.IN_FORCE, When.THROUGHOUT),
    INTERFACE(Side.TASK, Reading.IN_FORCE, When.THROUGHOUT),
    ADEQUACY(Side.TASK, Reading.IN_FORCE, When.THROUGHOUT),
    FILTER(Side.TASK, Reading.IN_FORCE, When.THROUGHOUT),

    KIT_HOLD(Side.KIT, Reading.ALL_OPEN, When.THROUGHOUT),
    PARTS(Side.KIT, Reading.LATEST, When.THROUGHOUT),
    PART_LIFE(Side.KIT, Reading.LATEST, When.THROUGHOUT),
    FILTER_LIFE(Side.KIT, Reading.SUM_IN_WINDOW, When.THROUGHOUT),
    EXAMINATION(Side.KIT, Reading.LATEST_SINCE_UNDONE, When.THROUGHOUT),
    FLOW(Side.KIT, Reading.LATEST_SINCE_UNDONE, When.THROUGHOUT),
    CLEAN(Side.KIT, Reading.LATEST_SINCE_UNDONE, When.THROUGHOUT),
    BATTERY(Side.KIT, Reading.IN_FORCE, When.THROUGHOUT),
    ISSUED(Side.KIT, Reading.LATEST, When.AT_START),
    PRE_USE_CHECK(Side.KIT, Reading.LATEST_SINCE_UNDONE, When.AT_START),
    PLACEMENT_CHECK(Side.KIT, Reading.LATEST_SINCE_UNDONE, When.AT_START),
    SEAL_CHECK(Side.KIT, Reading.LATEST_SINCE_UNDONE, When.AT_START),

    AIR_SUPPLY(Side.SUPPLY, Reading.LATEST_SINCE_UNDONE, When.THROUGHOUT),
    AIR_PURIFIER(Side.SUPPLY, Reading.LATEST, When.THROUGHOUT),
    SUPPLY_HOLD(Side.SUPPLY, Reading.ALL_OPEN, When.THROUGHOUT);

    /** Whose requirement it is. */
    public enum Side {
        PERSON,
        TASK,
        KIT,
        SUPPLY
    }

    /** How a kind reads history. */
    public enum Reading {
        /** The newest record of the scope. */
        LATEST,
        /** Any record of the exact scope that is still good; a later failure of the same scope voids it. */
        ANY_VALID,
        /** Every record that nothing has closed. */
        ALL_OPEN,
        /** The newest record after the last event that could undo it. */
        LATEST_SINCE_UNDONE,
        /** All records in a window of time, added up. */
        SUM_IN_WINDOW,
        /** What was in force at the instant: data with a beginning. */
        IN_FORCE
    }

    /** When a kind can be met. */
    public enum When {
        /** Must hold before and all the way through. */
        THROUGHOUT,
        /** Can only be met at the start: listed as "to do at the start" as long as that lies ahead. */
        AT_START
    }

    private final Side side;
    private final Reading reading;
    private final When when;

    RequirementKind(Side side, Reading reading, When when) {
        this.side = side;
        this.reading = reading;
        this.when = when;
    }

    public Side side() {
        return side;
    }

    public Reading reading() {
        return reading;
    }

    public boolean isAtStart() {
        return when == When.AT_START;
    }

    /** Behind the wall: for a reader without the right, these collapse into one line. */
    public boolean isMedical() {
        return this == MEDICAL || this == SYMPTOM_REVIEW;
    }

    /** Needs a set in the question; with a model alone it is listed as "no set chosen". */
    public boolean needsSet() {
        return (side == Side.KIT && this != BATTERY) || side == Side.SUPPLY;
    }
}
