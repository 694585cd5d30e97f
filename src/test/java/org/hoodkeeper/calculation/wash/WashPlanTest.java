package org.hoodkeeper.calculation.wash;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hoodkeeper.calculation.wash.WashMethod.HAND_WASH;
import static org.hoodkeeper.calculation.wash.WashMethod.IMMERSION;
import static org.hoodkeeper.calculation.wash.WashMethod.MACHINE_WASH;
import static org.hoodkeeper.calculation.wash.WashMethod.WIPE;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;

/** Parts and products are invented; the rule is the trade's: lowest temperature, common products, common methods, product's contact. */
class WashPlanTest {

    private static final Disinfectant CHLORINE =
            new Disinfectant("CL-50", new BigDecimal("50"), "ppm available chlorine", 120);
    private static final Disinfectant ALCOHOL = new Disinfectant("AL-70", new BigDecimal("70"), "% v/v", 60);
    private static final Disinfectant SLOW = new Disinfectant("OX-4", new BigDecimal("1000"), "ppm", 600);

    private static final WashedPart HOOD = part("hood", "43", Map.of("CL-50", 300), HAND_WASH, IMMERSION, MACHINE_WASH);
    private static final WashedPart HOSE =
            part("hose", "60", Map.of("CL-50", 600, "OX-4", 900), HAND_WASH, IMMERSION, MACHINE_WASH);
    private static final WashedPart VISOR = part("visor", "40", Map.of("CL-50", 200, "OX-4", 900), HAND_WASH, WIPE);
    private static final WashedPart BLOWER = part("blower", null, Map.of("AL-70", WashedPart.NO_LIMIT), WIPE);
    private static final WashedPart FILTER = part("filter", null, Map.of());

    private static WashedPart part(String name, String hottest, Map<String, Integer> products, WashMethod... methods) {
        return new WashedPart(name, hottest == null ? null : new BigDecimal(hottest), products, Set.of(methods));
    }

    @Test
    void theOnlyRecipeIsTheCoolestWithWhatAllPartsBear() {
        WashPlan plan = WashPlan.of(List.of(HOOD, HOSE, VISOR), List.of(CHLORINE, ALCOHOL, SLOW));
        assertThat(plan.isWhole()).isTrue();
        WashLoad load = plan.loads().get(0);
        assertThat(load.hottest()).isEqualByComparingTo("40");
        assertThat(load.products()).containsExactly(CHLORINE);
        assertThat(load.methods()).containsExactly(HAND_WASH);
        assertThat(load.products().get(0).wetSeconds()).isEqualTo(120);
    }

    @Test
    void aPartThatBearsTheProductOnlyBrieflyRulesItOut() {
        WashedPart brief = part("badge", "50", Map.of("CL-50", 119), HAND_WASH);
        assertThat(WashPlan.load(List.of(HOOD, brief), List.of(CHLORINE)).isPossible())
                .isFalse();
        WashedPart justEnough = part("badge", "50", Map.of("CL-50", 120), HAND_WASH);
        assertThat(WashPlan.load(List.of(HOOD, justEnough), List.of(CHLORINE)).isPossible())
                .isTrue();
    }

    @Test
    void withoutACommonRecipeItSaysWhatToPull() {
        WashPlan plan = WashPlan.of(List.of(HOOD, HOSE, BLOWER, VISOR, FILTER), List.of(CHLORINE, ALCOHOL, SLOW));
        assertThat(plan.isWhole()).isFalse();
        assertThat(plan.pulled()).containsExactly("blower", "filter");
        assertThat(plan.loads()).hasSize(2);
        assertThat(plan.loads().get(0).parts()).containsExactly("hood", "hose", "visor");
        assertThat(plan.loads().get(1).parts()).containsExactly("blower");
        assertThat(plan.loads().get(1).products()).containsExactly(ALCOHOL);
        assertThat(plan.without()).containsExactly("filter");
    }

    @Test
    void aCycleAtNinetyFiveDegreesIsOverThePartsLimits() {
        assertThat(WashPlan.excesses(List.of(HOOD, VISOR, BLOWER), HAND_WASH, new BigDecimal("95"), "CL-50", 250))
                .extracting(WashPlan.Excess::part, WashPlan.Excess::limit)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("blower", WashPlan.Excess.Limit.PRODUCT),
                        org.assertj.core.groups.Tuple.tuple("blower", WashPlan.Excess.Limit.METHOD),
                        org.assertj.core.groups.Tuple.tuple("hood", WashPlan.Excess.Limit.TEMPERATURE),
                        org.assertj.core.groups.Tuple.tuple("visor", WashPlan.Excess.Limit.TEMPERATURE),
                        org.assertj.core.groups.Tuple.tuple("visor", WashPlan.Excess.Limit.WET_TIME));
        assertThat(WashPlan.excesses(List.of(HOOD), HAND_WASH, new BigDecimal("43"), "CL-50", 300))
                .isEmpty();
    }

    @Test
    void anEmptyBasketHasNoRecipe() {
        assertThatThrownBy(() -> WashPlan.of(List.of(), List.of(CHLORINE))).isInstanceOf(Refused.class);
    }
}
