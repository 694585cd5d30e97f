package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * A worker was trained on one model; the scope is the model's code.
 *
 * @param outcome whether the person passed
 * @param demonstrated whether the skill was shown: don, assemble, flow check. Training without it does not count.
 * @param contentVersion which version of the content was taught
 * @param external given elsewhere and accepted here
 */
public record Training(
        Outcome outcome,
        boolean demonstrated,
        @Nullable String contentVersion,
        boolean external,
        @Nullable String trainer)
        implements Fact {}
