package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * Nothing about it may be erased until it is released, whatever a rule says: an investigation, a claim, a request.
 *
 * @param step placed, or released; a release names the hold as its item
 * @param reason why, in the officer's words
 */
public record LegalHold(Step step, @Nullable String reason) implements Fact {

    public enum Step {
        PLACED,
        RELEASED
    }
}
