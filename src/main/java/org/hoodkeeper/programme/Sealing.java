package org.hoodkeeper.programme;

import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.ledger.Sealer;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;

/** Seals every site's new entries, about once a second. Several instances may run it: one seals, the others pass by. */
@Component
@ConditionalOnProperty(name = "hoodkeeper.sealing", havingValue = "on", matchIfMissing = true)
class Sealing {

    private final SiteRegister sites;
    private final Sealer sealer;

    Sealing(SiteRegister sites, Sealer sealer) {
        this.sites = sites;
        this.sealer = sealer;
    }

    @Scheduled(fixedDelay = 1_000, initialDelay = 2_000)
    void seal() {
        sites.all().forEach(site -> SiteBinding.run(site.id(), () -> sealer.seal(site.id())));
    }
}
