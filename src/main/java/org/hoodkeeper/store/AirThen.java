package org.hoodkeeper.store;

import java.time.Instant;
import org.hoodkeeper.assessment.AirJudgement;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;

/** Tests of breathing air against the rules of their day, as known now. The rules are read when the first one asks. */
final class AirThen {

    private final RulesAtSite rulesAtSite;
    private final SiteId site;
    private final Instant now;
    private @Nullable SiteRules rules;

    AirThen(RulesAtSite rulesAtSite, SiteId site, Instant now) {
        this.rulesAtSite = rulesAtSite;
        this.site = site;
        this.now = now;
    }

    AirJudgement judged(Told<?> test) {
        SiteRules known = rules;
        if (known == null) {
            known = rulesAtSite.knownAt(site, now);
            rules = known;
        }
        return AirJudgement.of((AirTest) test.fact(), known.at(test.from()));
    }
}
