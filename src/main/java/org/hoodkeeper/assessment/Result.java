package org.hoodkeeper.assessment;

/** How one requirement comes out. Worse ones come later. */
public enum Result {
    /** The rule set or the thing itself asks for nothing; the reason says why. */
    NOT_APPLICABLE,
    /** Asked about a model: there is no set yet to look at. Listed, not counted. */
    NO_SET_CHOSEN,
    MET,
    /** Can only be met at the start, which lies ahead. Listed, not counted. */
    TO_DO_AT_START,
    MET_WITH_CONDITIONS,
    /** Counts as not met. */
    UNKNOWN,
    NOT_MET;

    public boolean bars() {
        return this == UNKNOWN || this == NOT_MET;
    }
}
