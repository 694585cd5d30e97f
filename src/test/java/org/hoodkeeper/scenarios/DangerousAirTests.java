package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.AIRLINE_HOOD;
import static org.hoodkeeper.facts.InterfaceType.BREATHING_APPARATUS;
import static org.hoodkeeper.rules.RequirementKind.ADEQUACY;
import static org.hoodkeeper.rules.RequirementKind.ATMOSPHERE;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.calculation.MaximumUse;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/**
 * At and above the concentration that is immediately dangerous no maximum use concentration counts: only the classes that the
 * rules name for such air, 29 CFR 1910.134(d)(2) and (d)(3)(i)(B)(2). A gas with limit 20 and dangerous from 1200, in mg/m³.
 */
@ScenarioTest
class DangerousAirTests {

    private static final String FROM = "2026-05-21T06:00";
    private static final String UNTIL = "2026-05-21T06:20";

    @Autowired
    Story.Door door;

    @Autowired
    TaskSheets sheets;

    private Story ferrow;

    @BeforeEach
    void aGasAtTheFurnace() {
        ferrow = door.ferrow()
                .worker("Fay")
                .model("BA", BREATHING_APPARATUS, "self-contained positive", null, false)
                .model("BX", BREATHING_APPARATUS, "no class that is known", null, false)
                .model("AH", AIRLINE_HOOD, "LDH3", "170", false);
        Limit limit = new Limit(
                new BigDecimal("20"), "mg/m3", new BigDecimal("1200"), Set.of(), true, "invented", Mark.INVENTED);
        ferrow.tell(Draft.of(limit, ferrow.site().id(), ferrow.instant("2020-01-01"))
                .scope("gas"));
    }

    private void air(TaskBasis.Atmosphere atmosphere, String milligrams) {
        air(atmosphere, new TaskBasis.Exposure("gas", new BigDecimal(milligrams), "mg/m3"));
    }

    private void air(TaskBasis.Atmosphere atmosphere, TaskBasis.Exposure... exposures) {
        ferrow.task("F1", "gas", "1", atmosphere).posted("Fay", "F1").on("2026-05-01T12:00");
        ferrow.tell(Draft.of(
                new TaskBasis(
                        List.of(exposures),
                        TaskBasis.Mixture.ADDITIVE,
                        atmosphere,
                        Set.of(),
                        MedicalOutcome.WorkRate.MODERATE,
                        null,
                        null,
                        null),
                ferrow.id("F1"),
                ferrow.instant("2026-05-01T00:00")));
    }

    private Answer with(String model) {
        return ferrow.may("Fay", "F1").withModel(model, "M").from(FROM, UNTIL);
    }

    private TaskSheet.ModelLine line(String model) {
        Moment moment =
                new Moment(ferrow.instant("2026-05-21T06:00"), ferrow.instant("2026-05-21T06:00"), Moment.View.NOW);
        TaskSheet sheet =
                SiteBinding.in(ferrow.site().id(), () -> sheets.of(ferrow.site().id(), "F1", moment));
        return sheet.models().stream()
                .filter(line -> line.code().equals(model))
                .findFirst()
                .orElseThrow();
    }

    /** 1500 of 20 is 75 times: within 2000, and above 1200. */
    @Test
    void namedApparatusIsEnoughAboveTheDangerousConcentration() {
        air(TaskBasis.Atmosphere.ORDINARY, "1500");
        assertThat(with("BA")).has(ADEQUACY, Result.MET, Why.IN_PLACE);
        assertThat(with("AH")).has(ADEQUACY, Result.NOT_MET, Why.IDLH);
        assertThat(line("BA").stand()).isEqualTo(TaskSheet.Stand.ENOUGH);
        assertThat(line("BA").use().most()).isEqualTo(new MaximumUse(new BigDecimal("40000"), MaximumUse.SetBy.FACTOR));
        assertThat(line("AH").stand()).isEqualTo(TaskSheet.Stand.IMMEDIATELY_DANGEROUS);
    }

    /** 50 000 of 20 is 2500 times: its factor of 2000 counts all the same. */
    @Test
    void itsFactorCountsAllTheSame() {
        air(TaskBasis.Atmosphere.IDLH, "50000");
        assertThat(with("BA"))
                .has(ATMOSPHERE, Result.MET, Why.IN_PLACE)
                .has(ADEQUACY, Result.NOT_MET, Why.FACTOR_SHORT);
        assertThat(line("BA").stand()).isEqualTo(TaskSheet.Stand.FACTOR_SHORT);
    }

    /** 50 000 of 20 is 2500 times by itself, whatever the vapour without a limit adds to it. */
    @Test
    void whatIsKnownOfAnAirIsNotHiddenByWhatIsNot() {
        air(
                TaskBasis.Atmosphere.IDLH,
                new TaskBasis.Exposure("gas", new BigDecimal("50000"), "mg/m3"),
                new TaskBasis.Exposure("vapour without a limit", new BigDecimal("1"), "mg/m3"));
        assertThat(with("BA")).has(ADEQUACY, Result.NOT_MET, Why.FACTOR_SHORT);
        assertThat(line("BA").stand()).isEqualTo(TaskSheet.Stand.FACTOR_SHORT);
    }

    /** 1500 of 20 is 75 times: nothing that is known is too much for it, and the rest is what the class is named for. */
    @Test
    void namedApparatusIsEnoughWhereOnlyPartOfTheAirIsKnown() {
        air(
                TaskBasis.Atmosphere.IDLH,
                new TaskBasis.Exposure("gas", new BigDecimal("1500"), "mg/m3"),
                new TaskBasis.Exposure("vapour without a limit", new BigDecimal("1"), "mg/m3"));
        assertThat(with("BA")).has(ADEQUACY, Result.MET, Why.NAMED_FOR_AIR);
        assertThat(line("BA").stand()).isEqualTo(TaskSheet.Stand.ENOUGH);
    }

    /** What cannot be estimated is treated as immediately dangerous, (d)(1)(iii), and for that the class is named. */
    @Test
    void inAnUnknownAirOnlyNamedApparatusWillDo() {
        air(TaskBasis.Atmosphere.UNKNOWN);
        assertThat(with("BA")).has(ATMOSPHERE, Result.MET, Why.IN_PLACE).has(ADEQUACY, Result.MET, Why.NAMED_FOR_AIR);
        assertThat(with("AH")).has(ATMOSPHERE, Result.NOT_MET, Why.ATMOSPHERE_UNKNOWN);
        assertThat(line("BA").stand()).isEqualTo(TaskSheet.Stand.ENOUGH);
        assertThat(line("AH").stand()).isEqualTo(TaskSheet.Stand.UNKNOWN);
    }

    /** Apparatus alone is not enough: a demand device lets the air in, and an unknown class may be one. */
    @Test
    void apparatusOfAClassThatIsNotNamedWillNotDo() {
        air(TaskBasis.Atmosphere.IDLH, "1500");
        assertThat(with("BX")).has(ATMOSPHERE, Result.NOT_MET, Why.CLASS_NOT_NAMED);
        assertThat(line("BX").stand()).isEqualTo(TaskSheet.Stand.IMMEDIATELY_DANGEROUS);
    }

    /** A flue of which nothing is known needs nothing measured for the answer to be no. */
    @Test
    void anOrdinaryAirOfWhichNothingIsKnownStaysUnknown() {
        air(TaskBasis.Atmosphere.ORDINARY);
        assertThat(with("BA")).has(ADEQUACY, Result.UNKNOWN, Why.MISSING);
    }
}
