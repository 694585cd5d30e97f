package org.hoodkeeper.web.officer;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.evidence.Decisions;
import org.hoodkeeper.rules.SiteDecisionRule;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** Puts what is left to a site into words. */
@Component
class DecisionPoints {

    private final MessageSource messages;
    private final Words words;

    DecisionPoints(MessageSource messages, Words words) {
        this.messages = messages;
        this.words = words;
    }

    /**
     * @param meaning what it decides, in the reader's language where the bundles know the rule set's own words
     * @param byDefault what counts until the site has decided; none where nothing counts until then
     * @param mark how well the default is vouched for, in words
     * @param taken each decision in force
     */
    public record Shown(
            String key,
            String meaning,
            String owner,
            @Nullable String byDefault,
            @Nullable String mark,
            List<Taken> taken) {}

    /** @param thing what it is about, where it is taken for each of several things */
    public record Taken(@Nullable String thing, String value, Instant from) {}

    Shown shown(Decisions.Point point) {
        SiteDecisionRule rule = point.rule();
        return new Shown(
                rule.key(),
                meaning(rule),
                words.say("decision.owner." + rule.owner().name()),
                rule.byDefault(),
                rule.mark() == null
                        ? null
                        : words.say("kinds.Mark." + rule.mark().name()),
                point.taken().stream()
                        .map(told -> new Taken(thing(told.scope()), told.fact().value(), told.from()))
                        .toList());
    }

    /** The rule set tells it in English; a rule set without words in the bundles is shown as it is written. */
    private String meaning(SiteDecisionRule rule) {
        String found = messages.getMessage(
                "decision.meaning." + rule.key(), null, rule.meaning(), LocaleContextHolder.getLocale());
        return found == null ? rule.meaning() : found;
    }

    private static @Nullable String thing(@Nullable String scope) {
        int slash = scope == null ? -1 : scope.indexOf('/');
        return scope == null || slash < 0 ? null : scope.substring(slash + 1);
    }
}
