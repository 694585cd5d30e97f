package org.hoodkeeper.oversight;

import java.time.Duration;
import java.time.Instant;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;

/** Judges new and touched wears little by little, so that the page of findings has nothing left to judge. */
@Component
@ConditionalOnProperty(name = "hoodkeeper.sealing", havingValue = "on", matchIfMissing = true)
class Sweep {

    /** As far back as the page of findings looks by itself. */
    static final Duration BACK = Duration.ofDays(92);

    private static final int AT_ONCE = 50;

    private final SiteRegister sites;
    private final JudgedWears wears;
    private final KnowledgeClock clock;

    Sweep(SiteRegister sites, JudgedWears wears, KnowledgeClock clock) {
        this.sites = sites;
        this.wears = wears;
        this.clock = clock;
    }

    @Scheduled(fixedDelay = 30_000, initialDelay = 20_000)
    void judge() {
        Instant now = clock.now();
        sites.all()
                .forEach(site -> SiteBinding.run(
                        site.id(), () -> wears.refresh(site.id(), now.minus(BACK), now.plusSeconds(1), AT_ONCE)));
    }
}
