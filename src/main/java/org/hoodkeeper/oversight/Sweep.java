package org.hoodkeeper.oversight;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.SiteId;
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

    private static final Duration DAY = Duration.ofDays(1);

    private static final int AT_ONCE = 50;

    /** A site with more wears than that is gone through day by day, and today each time: all of them would be too many to read. */
    private static final int FEW = 2_000;

    private final SiteRegister sites;
    private final JudgedWears wears;
    private final KnowledgeClock clock;
    private final Map<SiteId, Instant> reached = new HashMap<>();

    Sweep(SiteRegister sites, JudgedWears wears, KnowledgeClock clock) {
        this.sites = sites;
        this.wears = wears;
        this.clock = clock;
    }

    @Scheduled(fixedDelay = 30_000, initialDelay = 20_000)
    void judge() {
        Instant now = clock.now();
        sites.all().forEach(site -> SiteBinding.run(site.id(), () -> judge(site.id(), now, FEW, AT_ONCE)));
    }

    /** One turn of a site. @param few wears are looked at as a whole @param atOnce so many are judged at most */
    void judge(SiteId site, Instant now, int few, int atOnce) {
        Instant first = now.minus(BACK);
        Instant last = now.plusSeconds(1);
        if (wears.isFew(site, first, few)) {
            wears.refresh(site, first, last, atOnce);
            return;
        }
        // whoever is inside is judged again each time: waiting for today to be done would leave the days before it to
        // nobody
        wears.refresh(site, last.minus(DAY), last, atOnce / 2);
        Instant until = reached.getOrDefault(site, last.minus(DAY));
        Instant from = until.minus(DAY);
        if (wears.refresh(site, from, until, atOnce / 2) == 0) {
            reached.put(site, from.isAfter(first) ? from : last.minus(DAY));
        }
    }
}
