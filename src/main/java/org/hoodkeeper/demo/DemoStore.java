package org.hoodkeeper.demo;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.stereotype.Component;

/** What of the demo no file brings in: a recall, and a wash that is under way at the first look. */
@Component
@ConditionalOnProperty("hoodkeeper.demo")
class DemoStore {

    private final Recalls recalls;
    private final Washes washes;
    private final Kit kit;
    private final Clock clock;

    DemoStore(Recalls recalls, Washes washes, Kit kit, Clock clock) {
        this.recalls = recalls;
        this.washes = washes;
        this.kit = kit;
        this.clock = clock;
    }

    /** Two sets came back yesterday and are drying; the maker called a lot of hoses back the same morning. */
    void lay(SiteId site, ZoneId zone, AccountId loader) {
        Author author = new Author(site, loader, Author.Via.DEMO);
        Instant now = clock.instant();
        wash(author, List.of(set(site, "S-211"), set(site, "S-212")), now);
        Instant yesterday = LocalDate.ofInstant(now, zone)
                .minusDays(1)
                .atTime(9, 0)
                .atZone(zone)
                .toInstant();
        recalls.record(author, hoses(), yesterday, null);
    }

    private SetId set(SiteId site, String label) {
        return kit.set(site, label).id();
    }

    private void wash(Author author, List<SetId> sets, Instant now) {
        UUID batch = washes.begin(author, sets, now.minus(Duration.ofMinutes(25)));
        washes.step(
                author,
                batch,
                step(WashStep.Step.WASHED, BigDecimal.valueOf(36), null),
                now.minus(Duration.ofMinutes(13)));
        washes.step(author, batch, step(WashStep.Step.WETTED, null, "OX-4"), now.minus(Duration.ofMinutes(11)));
        washes.step(author, batch, step(WashStep.Step.RINSED, null, null), now.minus(Duration.ofMinutes(8)));
    }

    private static WashStep step(WashStep.Step step, @Nullable BigDecimal celsius, @Nullable String product) {
        BigDecimal strength = product == null ? null : BigDecimal.valueOf(1_000);
        String basis = product == null ? null : "ppm available chlorine";
        return new WashStep(step, celsius, product, strength, basis);
    }

    private static Recall hoses() {
        return new Recall(
                null,
                "hose",
                "HO-40",
                "HL-22",
                Set.of(),
                null,
                null,
                Recall.Remedy.STOP_NOW,
                null,
                "HN-07",
                "The collar can work loose");
    }
}
