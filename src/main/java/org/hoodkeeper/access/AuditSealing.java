package org.hoodkeeper.access;

import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;

/** Seals the audit trails every few seconds. Several instances may run it: one seals, the others pass by. */
@Component
@ConditionalOnProperty(name = "hoodkeeper.sealing", havingValue = "on", matchIfMissing = true)
class AuditSealing {

    private final SiteRegister sites;
    private final AuditChain chain;

    AuditSealing(SiteRegister sites, AuditChain chain) {
        this.sites = sites;
        this.chain = chain;
    }

    @Scheduled(fixedDelay = 5_000, initialDelay = 3_000)
    void seal() {
        chain.seal(null);
        sites.all().forEach(site -> SiteBinding.run(site.id(), () -> chain.seal(site.id())));
    }
}
