package org.hoodkeeper.facts;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * How a delivered set came out when it was taken in: contents, parts, approval, first flow, label. Parts and flow have records
 * of their own.
 *
 * @param answers each point and how it came out
 * @param delivery supplier and delivery note
 * @param note what was missing or wrong
 */
public record Acceptance(
        Map<Point, Outcome> answers,
        @Nullable String delivery,
        @Nullable String note) implements Fact {

    /** What is looked at; the trade's list for a delivery, common practice. */
    public enum Point {
        CONTENTS,
        INSTRUCTIONS,
        UNDAMAGED,
        APPROVAL,
        PARTS,
        BATTERY,
        ALARMS,
        FIRST_FLOW,
        LABEL
    }

    public Acceptance {
        answers = Ordered.copy(answers);
    }

    public boolean accepted() {
        return !answers.isEmpty() && !answers.containsValue(Outcome.FAIL);
    }
}
