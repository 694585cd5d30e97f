package org.hoodkeeper.programme;

import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.ledger.Sealer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.dao.DataAccessException;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import org.springframework.transaction.TransactionException;

/** Seals every site's new entries, about once a second. Several instances may run it: one seals, the others pass by. */
@Component
@ConditionalOnProperty(name = "hoodkeeper.sealing", havingValue = "on", matchIfMissing = true)
class Sealing {

    private static final Logger LOG = LoggerFactory.getLogger(Sealing.class);

    private final SiteRegister sites;
    private final Sealer sealer;

    Sealing(SiteRegister sites, Sealer sealer) {
        this.sites = sites;
        this.sealer = sealer;
    }

    @Scheduled(fixedDelay = 1_000, initialDelay = 2_000)
    void seal() {
        sites.all().forEach(this::seal);
    }

    private void seal(Site site) {
        try {
            SiteBinding.run(site.id(), () -> sealer.seal(site.id()));
        } catch (DataAccessException | TransactionException fault) {
            // the edge of this thread: one site that cannot be sealed must not keep the others from it
            LOG.error("The entries of site {} were not sealed", site.code(), fault);
        }
    }
}
