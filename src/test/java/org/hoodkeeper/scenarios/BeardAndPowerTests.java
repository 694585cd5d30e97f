package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.POWERED_FULL_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.FIT_TEST;
import static org.hoodkeeper.rules.RequirementKind.HAIR_AT_SEAL;
import static org.hoodkeeper.rules.RequirementKind.PLACEMENT_CHECK;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** "Powered" is no exemption: 29 CFR 1910.134(f)(8) and (g)(1)(i)(A); an edge on skin: OSHA letter of 27 July 1993. */
@ScenarioTest
class BeardAndPowerTests {

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void moHasAFullBeard() {
        ferrow = door.ferrow()
                .worker("Mo")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .model("H20-C", POWERED_HOOD, "TH2", "170", true)
                .model("PF", POWERED_FULL_MASK, "TM3 full", "120", false)
                .set("S-1", "H20", "M")
                .posted("Mo", "T4")
                .on("2026-06-01T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Mo", "H20", "2026-06-01T09:00")
                .trained("Mo", "H20-C", "2026-06-01T09:00")
                .trained("Mo", "PF", "2026-06-01T09:00")
                .examined("S-1", "190", "FI-1", "2026-06-01T08:00")
                .bearded("Mo", "2026-06-01T10:00")
                .on("2026-06-02T05:30");
    }

    @Test
    void aHoodWithoutSkinSealIsGoodForABeard() {
        assertThat(ferrow.may("Mo", "T4").with("S-1").from("2026-06-02T06:00", "2026-06-02T12:00"))
                .isCleared()
                .has(FIT_TEST, Result.NOT_APPLICABLE, Why.LOOSE_FITTING)
                .has(HAIR_AT_SEAL, Result.NOT_APPLICABLE, Why.LOOSE_FITTING)
                .has(PLACEMENT_CHECK, Result.TO_DO_AT_START, Why.MISSING);
    }

    @Test
    void aPoweredMaskIsNotForHairAndForWantOfAFitTest() {
        assertThat(ferrow.may("Mo", "T4").withModel("PF", "M").from("2026-06-02T06:00", "2026-06-02T12:00"))
                .isNotCleared()
                .because(HAIR_AT_SEAL, Why.HAIR_AT_SEAL)
                .because(FIT_TEST, Why.MISSING)
                .onlyBecauseOf(HAIR_AT_SEAL, FIT_TEST);
    }

    @Test
    void anElasticEdgeOnSkinWaitsForTheOfficer() {
        assertThat(ferrow.may("Mo", "T4").withModel("H20-C", "M").from("2026-06-02T06:00", "2026-06-02T12:00"))
                .isNotCleared()
                .onlyBecauseOf(HAIR_AT_SEAL)
                .because(HAIR_AT_SEAL, Why.OFFICER_DECIDES)
                .has(FIT_TEST, Result.NOT_APPLICABLE, Why.LOOSE_FITTING);
        ferrow.decides("skin-contact.hair-accepted/H20-C", "yes", "2026-06-02");
        assertThat(ferrow.may("Mo", "T4").withModel("H20-C", "M").from("2026-06-02T06:00", "2026-06-02T12:00"))
                .isCleared();
    }
}
