package org.hoodkeeper.assessment;

/** Why a requirement came out as it did. Words for people live in the bundles, by requirement and reason. */
public enum Why {
    /** Evidence is in place. */
    IN_PLACE,
    /** Nothing on record. */
    MISSING,
    /** There was evidence, and its time is over. */
    LAPSED,
    /** The newest evidence says no. */
    FAILED,
    /** Too little for type approval, whose floor is above what the maker asks for. */
    BELOW_APPROVAL,
    /** Enough for type approval, whose floor is above what the maker asks for. */
    AS_APPROVED,
    /** Evidence exists for another model, size or seal only. */
    OTHER_VARIANT,
    /** The skill was not demonstrated. */
    NOT_DEMONSTRATED,
    /** A record exists but its instrument or method does not let it count. */
    NOT_ACCEPTED,
    /** Something that belongs to it was left out. */
    INCOMPLETE,
    /** Something happened since that undoes it. */
    UNDONE,
    /** The rule set asks for nothing here. */
    NOT_REQUIRED,
    LOOSE_FITTING,
    TIGHT_FITTING,
    NO_FLOW,
    /** The model's minimum flow is not on record: no reading can prove it. */
    MINIMUM_UNKNOWN,
    NO_BATTERY,
    NOT_AIR_FED,
    NOT_ISSUED,
    WITH_ANOTHER,
    CUSTODY_UNCLEAR,
    SET_MISSING,
    /** The set was not in the store yet. */
    NOT_RECEIVED,
    NO_SET,
    HELD,
    DEFECT_OPEN,
    SUSPENDED,
    REVIEW_OPEN,
    UNFIT,
    TEMPORARILY_UNFIT,
    INTERFACE_EXCLUDED,
    /** The person may wear these types only. */
    INTERFACES_ONLY,
    /** Longest wear in one shift. */
    WEAR_LIMIT,
    HEAT_LIMIT,
    WORK_RATE_LIMIT,
    NEVER_ALONE,
    /** What a reader without the right sees of anything medical. */
    ASK_OFFICER,
    HAIR_AT_SEAL,
    /** Hair under an edge that must lie on skin, on a loose-fitting hood: the officer decides. */
    OFFICER_DECIDES,
    TRIGGER_OPEN,
    IDLH,
    OXYGEN_DEFICIENT,
    ATMOSPHERE_UNKNOWN,
    /** Breathing apparatus of a class that the rule set does not name for an immediately dangerous air. */
    CLASS_NOT_NAMED,
    /** The rule set names the class for such an air, whose ratio nobody knows. */
    NAMED_FOR_AIR,
    NOT_FOR_TASK,
    FACTOR_SHORT,
    /** Results since the assessment put the air above the factor. */
    SHORT_BY_RESULTS,
    /** Results since the assessment moved it, and the factor still covers it. */
    RESULTS_COVERED,
    /** The class covers it, and what a qualitative fit test lets be relied on does not. */
    FIT_TEST_SHORT,
    /** Covered by what a qualitative fit test lets be relied on. */
    FIT_TEST_COVERED,
    /** A peak above what the factor covers of the short-term limit or the ceiling. */
    PEAK_SHORT,
    PEAK_COVERED,
    /** Above what the cartridge may meet. */
    BEYOND_FILTER,
    CLASS_UNKNOWN,
    LIMIT_UNKNOWN,
    UNIT_DIFFERS,
    AIR_FED_ONLY,
    FILTER_SHORT,
    PART_NOT_APPROVED,
    FITTED_UNTRAINED,
    PART_OVER_AGE,
    PART_AGE_UNKNOWN,
    /** The filter has been in use for as long as the site's schedule allows. */
    FILTER_HOURS,
    /** It was opened longer ago than the site's schedule allows. */
    FILTER_OPENED,
    /** Not examined within the interval, and not worn since: due before it is worn again. */
    DUE_BEFORE_USE,
    /** Even an unused set is overdue. */
    OVERDUE_UNUSED,
    /** Found after it was missing: its handling is unknown. */
    FOUND,
    /** Worn by someone else since its last disinfection. */
    WORN_BY_ANOTHER,
    /** Worn in an emergency since its last disinfection, by whomever. */
    USED,
    WIPED_ONLY,
    /** Taken apart for a wash that is not over. */
    IN_WASH,
    /** Taken apart for a wash that nobody ended. */
    LEFT_IN_WASH,
    BATTERY_ENDS,
    /** As long as it ran when it was last measured. */
    BATTERY_MEASURED,
    BATTERY_SWAP,
    /** The site has its batteries measured, and this one was not. */
    NOT_TESTED,
    /** What the site decided as the part of the time that is left with a loaded filter is no part of a whole. */
    LOAD_UNKNOWN,
    NO_SUPPLY,
    /** No purifier of the supply has a tag on record. */
    NO_TAG,
    MOVED,
    DECISION_MISSING,
    TO_DO
}
