package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.POWERED_FULL_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.FLOW;
import static org.hoodkeeper.rules.RequirementKind.PRE_USE_CHECK;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.rules.RequirementKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;

/** 42 CFR 84.175(b), 84.179(a): 170 L/min for a hood, 115 for a tight mask, whatever less a maker may ask. The UK set has no floor. */
@ScenarioTest
class ApprovalFlowTests {

    @Autowired
    Story.Door door;

    /** A hood P-1 and a blown mask F-1 whose maker asks for so much. */
    private static Story laid(Story site, String minimum) {
        return site.worker("Bo")
                .model(
                        "P25",
                        POWERED_HOOD,
                        Map.of("us-federal", "powered helmet/hood", "uk", "TH2"),
                        minimum,
                        false,
                        480)
                .model(
                        "PF",
                        POWERED_FULL_MASK,
                        Map.of("us-federal", "powered full", "uk", "TM3 full"),
                        minimum,
                        false,
                        480)
                .set("P-1", "P25", "M")
                .set("F-1", "PF", "M")
                .limit("silica", "0.05", FilterKind.PARTICLE)
                .task("T4", "silica", "0.5")
                .posted("Bo", "T4")
                .on("2026-08-12T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30");
    }

    private static Answer asked(Story site, String set) {
        return site.may("Bo", "T4").with(set).from("2026-08-12T13:00", "2026-08-12T14:00");
    }

    private static void says(Answer answer, RequirementKind kind, Object... details) {
        assertThat(answer.of(kind))
                .extracting(Reason::details)
                .allSatisfy(said -> assertThat(said).isEqualTo(List.of(details)));
    }

    @ParameterizedTest
    @CsvSource({
        "P-1, 120, 125, NOT_MET, BELOW_APPROVAL, 170",
        "P-1, 120, 169.9, NOT_MET, BELOW_APPROVAL, 170",
        "P-1, 120, 170, MET, AS_APPROVED, 170",
        "P-1, 170, 170, MET, IN_PLACE, 170",
        "P-1, 180, 175, NOT_MET, FAILED, 180",
        "F-1, 100, 114.9, NOT_MET, BELOW_APPROVAL, 115",
        "F-1, 100, 115, MET, AS_APPROVED, 115",
        "F-1, 120, 120, MET, IN_PLACE, 120"
    })
    void theHigherOfTheMakersMinimumAndTheFloorCounts(
            String set, String makers, String reading, Result result, Why why, BigDecimal minimum) {
        Story pine = laid(door.pineBasin(), makers).flowChecked(set, reading, "FI-1", "2026-08-12T11:00");
        Answer answer = asked(pine, set);
        assertThat(answer).has(FLOW, result, why);
        says(answer, FLOW, new BigDecimal(reading).setScale(1), minimum, LocalDate.parse("2026-08-12"));
    }

    @Test
    void whereTheRuleSetHasNoFloorTheMakersMinimumCounts() {
        Story ferrow = laid(door.ferrow(), "120").examined("P-1", "125", "FI-1", "2026-08-12T11:00");
        assertThat(asked(ferrow, "P-1")).has(FLOW, Result.MET, Why.IN_PLACE);
    }

    @Test
    void theWearersOwnReadingIsHeldAgainstItToo() {
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        for (PreUseCheck.Item item : PreUseCheck.Item.values()) {
            items.put(item, Outcome.PASS);
        }
        PreUseCheck check = new PreUseCheck(items, new BigDecimal("125"), null, Outcome.PASS, 100, null);
        Story pine = laid(door.pineBasin(), "120").issued("P-1", "Bo", "2026-08-12T11:00");
        pine.on("2026-08-12T13:00")
                .tell(Draft.of(check, pine.id("P-1"), pine.instant("2026-08-12T12:50"))
                        .item(pine.id("Bo")));
        Answer answer = asked(pine, "P-1");
        assertThat(answer).has(PRE_USE_CHECK, Result.NOT_MET, Why.NOT_ACCEPTED);
        says(answer, PRE_USE_CHECK, new BigDecimal("125"), new BigDecimal("170"));
    }
}
