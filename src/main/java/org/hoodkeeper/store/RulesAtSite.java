package org.hoodkeeper.store;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Dossiers;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.SiteRules;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The rules and decisions of a site, for whoever judges a single record and asks no question. */
@Service
@Transactional(readOnly = true)
public class RulesAtSite {

    private final SiteRegister sites;
    private final Dossiers dossiers;

    RulesAtSite(SiteRegister sites, Dossiers dossiers) {
        this.sites = sites;
        this.dossiers = dossiers;
    }

    /** What is in force at an instant, as known then. */
    public InForce at(SiteId site, Instant instant) {
        return knownAt(site, instant).at(instant);
    }

    SiteRules knownAt(SiteId site, Instant instant) {
        return dossiers.load(
                        sites.get(site),
                        new Dossiers.Wanted(List.of(), List.of(), List.of(), Map.of()),
                        new Interval(instant, instant.plusSeconds(1)),
                        instant)
                .rules();
    }
}
