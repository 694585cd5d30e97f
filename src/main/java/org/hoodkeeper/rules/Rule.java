package org.hoodkeeper.rules;

import java.time.LocalDate;
import java.util.Set;
import org.hoodkeeper.facts.InterfaceType;
import org.jspecify.annotations.Nullable;

/**
 * One duty of a rule set.
 *
 * @param code unique in the rule set, begins with the rule set's code
 * @param requirement what is required
 * @param effect whether it is required, said not to be, or left to the site
 * @param interfaces the interface types for which it speaks; never empty
 * @param when under which circumstance it speaks
 * @param term how long evidence is good, its last day included; none where nothing runs out by the calendar or where
 *     {@code decision} gives it
 * @param decision key of the site decision on which it rests: the answer where the site decides, the term where there is none
 *     here, the reading of a year where the term is in years
 * @param anchor from which day the term runs
 * @param inclusiveEnd whether the day on which the term ends is still covered
 */
public record Rule(
        String code,
        RequirementKind requirement,
        Effect effect,
        Set<InterfaceType> interfaces,
        Circumstance when,
        @Nullable Term term,
        @Nullable String decision,
        Anchor anchor,
        boolean inclusiveEnd,
        Provenance provenance,
        InForceDays inForce) {

    public Rule {
        interfaces = Set.copyOf(interfaces);
    }

    public boolean speaksFor(InterfaceType type, LocalDate day) {
        return interfaces.contains(type) && inForce.on(day);
    }
}
