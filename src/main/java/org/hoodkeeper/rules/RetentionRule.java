package org.hoodkeeper.rules;

import java.time.Period;
import java.util.Set;
import org.hoodkeeper.facts.Kind;
import org.jspecify.annotations.Nullable;

/**
 * How long records must be kept. Several may apply to one record: the longest decides, and a legal hold outlasts all.
 *
 * @param code unique in the rule set
 * @param kinds of record; never empty
 * @param which which records of those kinds
 * @param from the day it is counted from
 * @param span counted from that day; none where the next record of the kind ends it
 */
public record RetentionRule(
        String code,
        Set<Kind> kinds,
        Which which,
        From from,
        @Nullable Period span,
        Provenance provenance) {

    /** Which records of a kind a rule means. */
    public enum Which {
        ALL,
        /** It tells of a person who can be identified. */
        IDENTIFIES_A_PERSON,
        IDENTIFIES_NOBODY,
        EMERGENCY_SET
    }

    /** From which day a span is counted. */
    public enum From {
        /** The day on which the record was made. */
        RECORD_DAY,
        /** The last entry in the file of records to which it belongs. */
        LAST_ENTRY,
        /** The end of the person's employment; no end before. */
        EMPLOYMENT_END,
        /** The day of the next record of this kind and scope; no end before. */
        NEXT_OF_KIND
    }

    public RetentionRule {
        kinds = Set.copyOf(kinds);
    }
}
