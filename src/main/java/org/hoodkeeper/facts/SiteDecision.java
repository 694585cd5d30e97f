package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * What the site decided where the law leaves it open; the scope is the decision's key.
 *
 * @param value as the rule set's description of the key says: a period, a number, a word
 * @param owner who answers for it
 * @param reason why
 */
public record SiteDecision(
        String value, @Nullable String owner, @Nullable String reason) implements Fact {}
