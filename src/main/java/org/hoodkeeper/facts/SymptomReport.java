package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * A worker reports trouble. The note is clinical text: author and health role only. Everyone else sees "review needed".
 *
 * @param step reported, or reviewed by the health role, which names the report as its item
 */
public record SymptomReport(Step step, @Nullable String note) implements Fact {

    public enum Step {
        REPORTED,
        REVIEWED
    }
}
