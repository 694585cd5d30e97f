package org.hoodkeeper.reporting;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.Period;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.SiteRules;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** How many days after its event a record was told, beyond what the site tolerates. */
@Component
@Transactional(readOnly = true)
public class Lateness {

    private final SiteRegister sites;
    private final Dossiers dossiers;
    private final KnowledgeClock clock;

    Lateness(SiteRegister sites, Dossiers dossiers, KnowledgeClock clock) {
        this.sites = sites;
        this.dossiers = dossiers;
        this.clock = clock;
    }

    /** With the site's tolerance of each day, as known now; read once for a whole page. */
    public Measure of(SiteId site) {
        Site register = sites.get(site);
        Instant now = clock.now();
        SiteRules rules = dossiers.load(
                        register,
                        new Dossiers.Wanted(List.of(), List.of(), List.of(), Map.of()),
                        new Interval(now, now.plus(Duration.ofMinutes(1))),
                        now)
                .rules();
        return new Measure(register.zone(), rules);
    }

    /** Measures the records of one site. */
    public static final class Measure {

        private final ZoneId zone;
        private final SiteRules rules;

        private Measure(ZoneId zone, SiteRules rules) {
            this.zone = zone;
            this.rules = rules;
        }

        /**
         * Days between the civil day of the event, or of the beginning of what holds from then on, and the civil day on which it
         * was told; 0 while the site tolerates them, and for what was told ahead. A wear is over at its end.
         */
        public long days(Kind kind, Told<?> told) {
            Instant event = kind == Kind.WEAR && told.until() != null ? told.until() : told.from();
            LocalDate happened = Days.of(event, zone);
            long late = ChronoUnit.DAYS.between(happened, Days.of(told.recordedAt(), zone));
            return late <= 0 || late <= tolerance(event) ? 0 : late;
        }

        private int tolerance(Instant event) {
            InForce.Decided decided = rules.at(event).decision("late.tolerance");
            return decided == null ? 0 : Period.parse(decided.value()).getDays();
        }
    }
}
