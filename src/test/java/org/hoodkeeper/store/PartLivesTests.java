package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.calculation.life.KaplanMeier;
import org.hoodkeeper.calculation.life.ReplacementDue;
import org.hoodkeeper.calculation.life.WeibullLife;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Defects;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** How long visors last, and how old those are that are in. */
@SpringBootTest
@Import({StoreStory.class, TestPeople.class})
class PartLivesTests {

    @Autowired
    StoreStory story;

    @Autowired
    PartLives lives;

    @Autowired
    PartHistory parts;

    @Autowired
    Defects defects;

    @Autowired
    PartChanges changes;

    @Autowired
    KnowledgeClock clock;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-25T18:00").worker("Kay", "H30");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    /** A visor of the lot, worn so often, and found broken afterwards or not. */
    private void visor(String label, String lot, int wears, boolean broke) {
        story.set(label, "H30", "2026-05-01T09:00");
        story.fitted(label, "visor", "V-20", lot, "2026-06-01T08:00");
        LocalDateTime day = LocalDateTime.parse("2026-06-02T08:00");
        for (int i = 0; i < wears; i++) {
            story.wore(
                    "Kay",
                    label,
                    day.plusDays(i).toString(),
                    day.plusDays(i).plusHours(2).toString());
        }
        if (broke) {
            story.in(() -> defects.found(
                    story.author(), story.id(label), "visor", "cracked", story.instant("2026-07-01T08:00"), null));
            story.fitted(label, "visor", "V-20", "new", "2026-07-01T09:00");
        }
    }

    private PartLives.Lived lived(PartLives.Unit unit, @Nullable String lot) {
        return story.in(() -> lives.of(story.site().id(), "visor", "V-20", lot, unit, clock.now()));
    }

    /**
     * Failed after 4, 5, 5 and 6 wears, still good after 2 and 3. By hand: of 4 that came so far 1 fails at 4, of 3 two fail at 5,
     * the last fails at 6. Shape, scale and B10 by scipy 1.17.1, {@code weibull_min.fit} of the same censored data.
     */
    @Test
    void visorsThatWearOutAreChangedBeforeOneInTenHasFailed() {
        visor("S-1", "V-7", 4, true);
        visor("S-2", "V-7", 5, true);
        visor("S-3", "V-8", 5, true);
        visor("S-4", "V-8", 6, true);
        visor("S-5", "V-8", 2, false);
        visor("S-6", "V-8", 3, false);
        PartLives.Lived lived = lived(PartLives.Unit.WEARS, null);
        assertThat(lived.failed()).isEqualTo(4);
        assertThat(lived.stillGood()).isEqualTo(2);
        // the four new visors have no wear yet
        assertThat(lived.leftOut()).isEqualTo(4);
        assertThat(lived.survival().steps())
                .extracting(KaplanMeier.Step::length, KaplanMeier.Step::atRisk, KaplanMeier.Step::failed)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(4.0, 4, 1),
                        org.assertj.core.groups.Tuple.tuple(5.0, 3, 2),
                        org.assertj.core.groups.Tuple.tuple(6.0, 1, 1));
        assertThat(lived.survival().survival(4)).isEqualTo(0.75);
        assertThat(lived.survival().survival(5)).isCloseTo(0.25, within(1e-12));
        assertThat(lived.fit().shape()).isCloseTo(8.0411, within(0.001));
        assertThat(lived.fit().scale()).isCloseTo(5.3128, within(0.0005));
        assertThat(lived.fit().b(10)).isCloseTo(4.0159, within(0.001));
        assertThat(lived.advice()).isEqualTo(WeibullLife.Advice.CHANGE_BY_AGE);
        assertThat(lived.lots()).containsExactly(new PartLives.OfLot("V-7", 2, 2), new PartLives.OfLot("V-8", 4, 2));
    }

    @Test
    void threeFailuresSayNothingYet() {
        visor("S-1", "V-7", 4, true);
        visor("S-2", "V-7", 5, true);
        visor("S-3", "V-7", 6, true);
        assertThat(lived(PartLives.Unit.WEARS, "V-7").failed()).isEqualTo(3);
        assertThat(lived(PartLives.Unit.WEARS, "V-7").fit()).isNull();
        assertThat(lived(PartLives.Unit.WEARS, "V-7").advice()).isEqualTo(WeibullLife.Advice.TOO_FEW);
        assertThat(lived(PartLives.Unit.WEARS, "V-9").lives()).isEmpty();
    }

    @Test
    void inDaysAPartLastsFromItsFittingToItsFault() {
        visor("S-1", "V-7", 4, true);
        assertThat(lived(PartLives.Unit.DAYS, "V-7").lives())
                .singleElement()
                .satisfies(life -> assertThat(life.length()).isEqualTo(30.0));
    }

    private static ModelData limited() {
        return new ModelData(
                "H50",
                InterfaceType.POWERED_HOOD,
                Map.of("uk", "TH2"),
                false,
                java.util.Set.of("M"),
                "R1",
                new java.math.BigDecimal("170"),
                ModelData.FlowAt.LOCAL,
                480,
                java.util.Set.of(FilterKind.PARTICLE),
                List.of(),
                null,
                List.of(
                        new ModelData.Slot("visor", java.util.Set.of("V-20"), 24),
                        new ModelData.Slot("hose", java.util.Set.of("HZ-7"), 36),
                        new ModelData.Slot(
                                "edge-seal",
                                java.util.Set.of("E-1"),
                                null,
                                new PartCare(null, List.of(), java.util.Set.of(), 3, false))));
    }

    @Test
    void ageCountsFromManufactureElseFromTheDocumentedFirstFit() {
        story.in(() -> story.kit().addModel(story.author(), "H50", limited(), story.instant("2026-01-01T00:00")));
        story.set("S-1", "H50", "2026-01-02T09:00").set("S-2", "H50", "2026-01-02T09:00");
        fit("S-1", "visor", "V-20", null, "2024-11-26", "2026-06-01T08:00");
        fit("S-2", "hose", "HZ-7", "N-5", null, "2026-02-10T08:00");
        fit("S-1", "hose", "HZ-7", "N-5", null, "2026-06-01T08:00");
        fit("S-1", "edge-seal", "E-1", null, null, "2026-11-01T08:00");
        story.disinfected("S-1", "2026-11-02T08:00")
                .wiped("S-1", "2026-11-03T08:00")
                .disinfected("S-1", "2026-11-04T08:00");
        Map<String, PartLives.Age> ages = ages("S-1", "2026-11-25T18:00");
        assertThat(ages.get("visor").from()).isEqualTo(PartLives.AgeFrom.MADE);
        assertThat(ages.get("visor").months()).isEqualTo(23);
        assertThat(ages.get("visor").due().lastDay()).isEqualTo(LocalDate.parse("2026-11-26"));
        assertThat(ages.get("visor").isOver()).isFalse();
        // the same hose, by its serial, was first fitted into S-2; its life counts from a manufacture that nobody knows
        assertThat(ages.get("hose").from()).isEqualTo(PartLives.AgeFrom.FIRST_FITTED);
        assertThat(ages.get("hose").since()).isEqualTo(LocalDate.parse("2026-02-10"));
        assertThat(ages.get("hose").due().limit()).isEqualTo(ReplacementDue.Limit.AGE_UNKNOWN);
        assertThat(ages.get("hose").isOver()).isTrue();
        assertThat(ages.get("edge-seal").from()).isEqualTo(PartLives.AgeFrom.UNKNOWN);
        assertThat(ages.get("edge-seal").due().left()).isEqualTo(1);
        assertThat(story.on("2026-11-27T00:00")).isNotNull();
        assertThat(ages("S-1", "2026-11-27T00:00").get("visor").isOver()).isTrue();
    }

    private void fit(
            String label, String place, String part, @Nullable String serial, @Nullable String madeOn, String at) {
        PartChange change = new PartChange(
                part, null, serial, madeOn == null ? null : LocalDate.parse(madeOn), true, "R. Repairer");
        story.in(() -> changes.record(story.author(), story.id(label), place, change, story.instant(at), null));
    }

    private Map<String, PartLives.Age> ages(String label, String at) {
        return story.in(() -> {
            List<Fitting> in =
                    parts.of(story.site().id(), story.id(label), clock.now()).of(story.id(label), story.instant(at));
            return lives.ages(story.site().id(), story.id(label), in, limited(), story.instant(at), clock.now());
        });
    }
}
