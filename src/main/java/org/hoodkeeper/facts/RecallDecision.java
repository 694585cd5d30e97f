package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * The safety officer decided that a recall, the item, does not bar a set although its part is still in: it was looked at and is not
 * meant, for instance. A recalled part that is fitted later bars again.
 */
public record RecallDecision(@Nullable String reason) implements Fact {}
