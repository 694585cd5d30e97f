package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Cleanings;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.facts.PartCare.Bath;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** The wash asks every part: the weakest decides for the basket. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class})
class WashPartsTest {

    private static final PartCare NEVER = new PartCare(null, List.of(), Set.of(), null, true);

    @Autowired
    StoreStory story;

    @Autowired
    Washes washes;

    @Autowired
    History history;

    @Autowired
    PartChanges partChanges;

    @Autowired
    Cleanings cleanings;

    @Autowired
    LookBacks lookBacks;

    @Autowired
    Corrections corrections;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-20T09:00");
        // visor: cool, by hand or sprayed, no alcohol, twice; filter never
        model(
                "H60",
                List.of(
                        slot("visor", care("30", List.of(bears("CL-50", 600)), Set.of(Bath.HAND_WASH, Bath.SPRAY), 2)),
                        slot("harness", care("60", List.of(), Set.of(Bath.HAND_WASH, Bath.MACHINE_WASH), null)),
                        slot("filter", NEVER)));
        // its edge seal bears alcohol alone
        model("H70", List.of(slot("edge seal", care(null, List.of(bears("AL-70", null)), Set.of(), null))));
        story.set("S-1", "H60", "2026-11-02T09:00").set("S-2", "H20", "2026-11-02T09:00");
        story.set("S-7", "H70", "2026-11-02T09:00");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private static PartCare care(
            @Nullable String celsius, List<PartCare.Bears> products, Set<Bath> methods, @Nullable Integer cycles) {
        return new PartCare(celsius == null ? null : new BigDecimal(celsius), products, methods, cycles, false);
    }

    private static PartCare.Bears bears(String code, @Nullable Integer longest) {
        return new PartCare.Bears(code, longest);
    }

    private static ModelData.Slot slot(String name, PartCare care) {
        return new ModelData.Slot(name, Set.of("V-60"), null, care);
    }

    private void model(String code, List<ModelData.Slot> slots) {
        model(code, slots, "50");
    }

    private void model(String code, List<ModelData.Slot> slots, @Nullable String hottest) {
        ModelData data = new ModelData(
                code,
                InterfaceType.POWERED_HOOD,
                Map.of("uk", "TH2"),
                false,
                Set.of("M"),
                "R1",
                new BigDecimal("170"),
                ModelData.FlowAt.LOCAL,
                480,
                Set.of(FilterKind.PARTICLE),
                List.of(
                        new ModelData.Product("CL-50", new BigDecimal("50"), "ppm available chlorine", 180),
                        new ModelData.Product("AL-70", new BigDecimal("70"), "% v/v", 60)),
                hottest == null ? null : new BigDecimal(hottest),
                slots);
        story.in(() -> story.kit().addModel(story.author(), code, data, story.instant("2026-01-01T00:00")));
    }

    private Washes.Recipe recipe(String... labels) {
        return story.in(() -> washes.recipe(story.site().id(), ids(labels), story.instant("2026-11-20T09:00")));
    }

    private List<SetId> ids(String... labels) {
        List<SetId> ids = new ArrayList<>();
        for (String label : labels) {
            ids.add(story.id(label));
        }
        return ids;
    }

    private List<String> heldFor(String label) {
        return story
                .in(() -> history.of(story.site().id(), story.id(label), story.instant("2026-12-01T00:00"), 100))
                .stream()
                .map(version -> version.told().fact())
                .filter(Hold.class::isInstance)
                .map(fact -> String.valueOf(((Hold) fact).reason()))
                .toList();
    }

    private void step(UUID batch, WashStep.Step step, @Nullable String celsius, boolean wet, String at) {
        story.on(at);
        WashStep told = new WashStep(
                step,
                celsius == null ? null : new BigDecimal(celsius),
                wet ? "CL-50" : null,
                wet ? new BigDecimal("50") : null,
                wet ? "ppm available chlorine" : null);
        story.in(() -> washes.step(story.author(), batch, told, story.instant(at)));
    }

    /** A whole wash on that day: 180 s is the contact that H60 asks for. */
    private void wash(String day, String celsius, String rinsedAt) {
        story.on(day + "T10:00");
        UUID batch = story.in(() -> washes.begin(story.author(), ids("S-1"), story.instant(day + "T10:00")));
        step(batch, WashStep.Step.WASHED, celsius, false, day + "T10:10");
        step(batch, WashStep.Step.WETTED, null, true, day + "T10:15");
        step(batch, WashStep.Step.RINSED, null, false, day + rinsedAt);
        step(batch, WashStep.Step.DRY, null, false, day + "T12:00");
    }

    @Test
    void theWeakestPartDecidesAndWhatIsNeverWashedIsPulledFirst() {
        Washes.Recipe recipe = recipe("S-1");
        assertThat(recipe.hottest()).isEqualByComparingTo("30");
        assertThat(recipe.products()).extracting(ModelData.Product::code).containsExactly("CL-50");
        assertThat(recipe.methods()).containsExactly(Bath.HAND_WASH);
        assertThat(recipe.pulled()).containsExactly("filter");
    }

    /** H20 asks for 120 s of the same product, H60 for 180 s; H20 bears 40 degrees, the visor of H60 30. */
    @Test
    void twoSetsTogetherNeedTheLongerContactAndTheCoolerWater() {
        Washes.Recipe recipe = recipe("S-2", "S-1");
        assertThat(recipe.products()).singleElement().satisfies(one -> {
            assertThat(one.code()).isEqualTo("CL-50");
            assertThat(one.wetSeconds()).isEqualTo(180);
        });
        assertThat(recipe.hottest()).isEqualByComparingTo("30");
    }

    @Test
    void aBasketWithoutARecipeGetsAPlanAndIsNotBegun() {
        assertThat(recipe("S-1", "S-7").isPossible()).isFalse();
        assertThatThrownBy(() -> story.in(
                        () -> washes.begin(story.author(), ids("S-1", "S-7"), story.instant("2026-11-20T09:00"))))
                .isInstanceOfSatisfying(
                        Refused.class, no -> assertThat(no.code()).isEqualTo("wash.sets.apart"));
        var plan = story.in(() -> washes.plan(story.site().id(), ids("S-1", "S-7"), story.instant("2026-11-20T09:00")));
        assertThat(plan.loads().get(0).parts()).containsExactly("S-1", "S-1 visor", "S-1 harness", "S-7");
        assertThat(plan.pulled()).containsExactly("S-7 edge seal");
    }

    @Test
    void waterTooHotForOnePartHoldsTheSetAndNamesThePart() {
        PartChange fitted = new PartChange("V-60", null, null, null, true, null);
        story.in(() -> partChanges.record(
                story.author(), story.id("S-1"), "visor", fitted, story.instant("2026-11-10T09:00"), null));
        wash("2026-11-20", "38", "T10:20");
        assertThat(heldFor("S-1")).containsExactly("visor V-60: 38 °C > 30 °C");
    }

    @Test
    void aPartIsHeldForAContactLongerThanItBears() {
        wash("2026-11-20", "30", "T10:26");
        assertThat(heldFor("S-1")).containsExactly("visor: CL-50 660 s > 600 s");
    }

    @Test
    void theWashAfterTheLastOneThatAPartBearsHoldsTheSet() {
        wash("2026-11-20", "30", "T10:20");
        wash("2026-11-21", "30", "T10:20");
        assertThat(heldFor("S-1")).isEmpty();
        wash("2026-11-22", "30", "T10:20");
        assertThat(heldFor("S-1")).containsExactly("visor: 3 > 2");
    }

    @Test
    void aNewPartBeginsItsWashesAnew() {
        wash("2026-11-20", "30", "T10:20");
        wash("2026-11-21", "30", "T10:20");
        PartChange fitted = new PartChange("V-60", null, null, null, true, null);
        story.in(() -> partChanges.record(
                story.author(), story.id("S-1"), "visor", fitted, story.instant("2026-11-21T12:00"), null));
        wash("2026-11-22", "30", "T10:20");
        assertThat(heldFor("S-1")).isEmpty();
    }

    private RecordId cleaned(String label, String product, String strength, String basis, String at) {
        Cleaning cleaning = new Cleaning(
                Cleaning.Method.WASH_AND_DISINFECT,
                product,
                new BigDecimal(strength),
                basis,
                180,
                new BigDecimal("20"));
        return story.in(() -> cleanings.record(story.author(), story.id(label), cleaning, story.instant(at), null));
    }

    private List<RequirementKind> barring(String label, String at) {
        return story.shelf(label, at).readiness().barring().stream()
                .map(Reason::kind)
                .toList();
    }

    /** The model lists both products, its edge seal bears alcohol alone: chlorine on it disinfects nothing and spoils the seal. */
    @Test
    void aProductThatOneOfTheFittedPartsDoesNotBearCoversNoChangeOfWearer() {
        story.worker("Kay", "H70").wore("Kay", "S-7", "2026-11-19T06:00", "2026-11-19T09:00");
        RecordId chlorine = cleaned("S-7", "CL-50", "50", "ppm available chlorine", "2026-11-20T08:00");
        assertThat(heldFor("S-7")).containsExactly("edge seal: CL-50");
        assertThat(barring("S-7", "2026-11-20T09:00")).contains(RequirementKind.KIT_HOLD, RequirementKind.CLEAN);
        assertThat(story.in(() -> lookBacks.asks(story.site().id(), chlorine))).isTrue();
        cleaned("S-7", "AL-70", "70", "% v/v", "2026-11-20T08:30");
        assertThat(barring("S-7", "2026-11-20T09:00"))
                .contains(RequirementKind.KIT_HOLD)
                .doesNotContain(RequirementKind.CLEAN);
    }

    /** 29 CFR 1910.134, appendix B-2: water of 43 °C at most, where the maker says nothing else. */
    @Test
    void withoutAMakersLimitWaterOverWarmHoldsTheSet() {
        model("H80", List.of(slot("visor", care(null, List.of(), Set.of(), null))), null);
        story.set("S-8", "H80", "2026-11-02T09:00");
        assertThat(recipe("S-8").hottest()).isEqualByComparingTo("43");
        assertThat(recipe("S-8").isLimitUnknown()).isTrue();
        assertThat(recipe("S-1", "S-8").hottest()).isEqualByComparingTo("30");
        washed("S-8", "43", "2026-11-20T08:00");
        assertThat(heldFor("S-8")).isEmpty();
        washed("S-8", "95", "2026-11-20T08:30");
        assertThat(heldFor("S-8")).containsExactly("95 °C > 43 °C");
    }

    private void washed(String label, String celsius, String at) {
        Cleaning cleaning = new Cleaning(Cleaning.Method.WASH, null, null, null, null, new BigDecimal(celsius));
        story.in(() -> cleanings.record(story.author(), story.id(label), cleaning, story.instant(at), null));
    }

    /** Told as 30 °C, and put right: it was 95. */
    @Test
    void aWashThatIsPutRightHoldsTheSetAsIfItHadBeenToldSo() {
        Cleaning warm = new Cleaning(Cleaning.Method.WASH, null, null, null, null, new BigDecimal("30"));
        Cleaning hot = new Cleaning(Cleaning.Method.WASH, null, null, null, null, new BigDecimal("95"));
        Instant at = story.instant("2026-11-20T08:00");
        RecordId told = story.in(() -> cleanings.record(story.author(), story.id("S-7"), warm, at, null));
        assertThat(heldFor("S-7")).isEmpty();
        RecordId right = story.in(() -> corrections.correct(
                story.viewer(), told, Draft.of(hot, story.id("S-7"), at), "the machine's print says so"));
        assertThat(heldFor("S-7")).containsExactly("95 °C > 50 °C");
        story.in(() -> corrections.correct(
                story.viewer(), right, Draft.of(hot, story.id("S-7"), at.plusSeconds(60)), "a minute later"));
        assertThat(heldFor("S-7")).hasSize(1);
    }
}
