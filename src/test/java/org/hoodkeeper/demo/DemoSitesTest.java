package org.hoodkeeper.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.hoodkeeper.Hoodkeeper;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestDatabase;
import org.hoodkeeper.evidence.Stock;
import org.hoodkeeper.evidence.StockItem;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.oversight.Findings;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.RecallBook;
import org.hoodkeeper.store.ShelfSet;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;

/** What the demo's README promises is what a first start lays. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class DemoSitesTest {

    private ConfigurableApplicationContext service;
    private SiteBinding.Bound bound;
    private SiteId site;
    private Instant now;

    @BeforeAll
    void lay() {
        List<String> arguments = new ArrayList<>(List.of(TestDatabase.emptyAsArguments()));
        arguments.add("--hoodkeeper.demo=true");
        service = new SpringApplicationBuilder(Hoodkeeper.class).run(arguments.toArray(new String[0]));
        site = the(SiteRegister.class).find("ferrow").orElseThrow().id();
        bound = SiteBinding.bind(site);
        now = Instant.now();
    }

    @AfterAll
    void close() {
        bound.close();
        service.close();
    }

    private <T> T the(Class<T> type) {
        return service.getBean(type);
    }

    private ShelfSet set(String label) {
        return the(Bench.class).one(site, label, now);
    }

    @Test
    void threeWearsOfYesterdayWereGapsAndNoOther() {
        Map<SetId, String> labels =
                the(Kit.class).sets(site).stream().collect(Collectors.toMap(one -> one.id(), one -> one.label()));
        List<String> worn = the(Findings.class).of(site, now.minus(7, ChronoUnit.DAYS), now, 500).found().stream()
                .map(one -> labels.get(one.worn().set()))
                .toList();
        assertThat(worn).containsExactlyInAnyOrder("S-109", "S-112", "S-144");
    }

    @Test
    void theRecallHoldsTheTwoThatHaveTheHoseAndTheOneOfWhichNobodyKnows() {
        RecallBook.Notice notice = the(RecallBook.class).all(site, now).get(0);
        assertThat(the(RecallBook.class).one(site, notice.told().id(), now).left().stream()
                        .map(has -> has.set().label()))
                .containsExactlyInAnyOrder("S-129", "S-139", "S-205");
    }

    @Test
    void filtersOverTheirDayLieOnTheShelfAndVisorsAreToBeOrdered() {
        Stock.Kept kept = the(Stock.class).kept(site, now);
        assertThat(kept.items().stream().filter(StockItem::isToOrder).map(StockItem::code))
                .containsExactly("V-20");
        assertThat(kept.items().stream()
                        .filter(item -> item.expiredPieces() > 0)
                        .map(item -> item.code() + " " + item.expiredPieces()))
                .containsExactly("F-P3 6");
        assertThat(kept.strangers()).isEmpty();
    }

    @Test
    void aBasketIsDrying() {
        assertThat(the(Washes.class).open(site, now).stream().map(batch -> batch.at()))
                .containsExactly(WashStep.Step.RINSED);
    }

    @Test
    void theStorekeepersWalkIsTrue() {
        assertThat(set("S-116").readiness().barring().get(0).kind()).isEqualTo(RequirementKind.FLOW);
        assertThat(set("S-112").readiness().barring().get(0).kind()).isEqualTo(RequirementKind.CLEAN);
        assertThat(set("S-201").state()).isEqualTo(ShelfSet.State.READY);
        assertThat(set("S-202").state()).isEqualTo(ShelfSet.State.READY);
        assertThat(set("S-210").state()).isEqualTo(ShelfSet.State.BLOCKED);
    }
}
