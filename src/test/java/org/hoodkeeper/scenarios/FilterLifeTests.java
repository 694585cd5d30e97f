package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.FILTER_LIFE;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.ledger.Draft;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;

/** Expected values counted by hand; 29 CFR 1910.134(d)(3)(iii)(B)(2) for gas, common practice for particles. */
@ScenarioTest
class FilterLifeTests {

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void aSetWithAFilterFittedOnTheThirdOfAugust() {
        ferrow = door.ferrow()
                .worker("Kay")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .tell(withFilter(), "H20", "2020-01-02")
                .set("S-1", "H20", "M")
                .posted("Kay", "T4")
                .on("2026-08-03T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Kay", "H20", "2026-08-03T09:00");
        ferrow.tell(filter("2026-08-03T09:30")).examined("S-1", "190", "FI-1", "2026-08-03T10:00");
    }

    @Test
    void withoutAScheduleNothingIsAsked() {
        assertThat(ferrow.may("Kay", "T4").with("S-1").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .isCleared()
                .has(FILTER_LIFE, Result.NOT_APPLICABLE, Why.NOT_REQUIRED);
    }

    /** Ten hours: five stints of 1 h 30 are 7 h 30, so 2 h 30 are left from 13:00, until 15:30. More than four wears on record. */
    @Test
    void hoursInUseEndAFilterInTheMiddleOfAPlan() {
        ferrow.decides("filter.longest-use/H20", "PT10H", "2026-08-01").on("2026-08-05T12:30");
        for (String day : List.of("03T13:00", "03T15:00", "04T08:00", "04T13:00", "05T08:00")) {
            String from = "2026-08-" + day;
            int hour = Integer.parseInt(day.substring(3, 5)) + 1;
            ferrow.wore(
                    "Kay", "S-1", "T4", from, "2026-08-" + day.substring(0, 3) + (hour < 10 ? "0" : "") + hour + ":30");
        }
        assertThat(ferrow.may("Kay", "T4").with("S-1").from("2026-08-05T13:00", "2026-08-05T16:00"))
                .isNotCleared()
                .onlyBecauseOf(FILTER_LIFE)
                .because(FILTER_LIFE, Why.FILTER_HOURS)
                .since(FILTER_LIFE, ferrow.instant("2026-08-05T15:30"))
                .isClearedUntil(ferrow.instant("2026-08-05T15:30"), FILTER_LIFE);
        ferrow.on("2026-08-05T12:50")
                .tell(filter("2026-08-05T12:40"))
                .flowChecked("S-1", "190", "FI-1", "2026-08-05T12:45");
        assertThat(ferrow.may("Kay", "T4").with("S-1").from("2026-08-05T13:00", "2026-08-05T16:00"))
                .isCleared();
    }

    /** Opened 3 August and good for seven days: 10 August is its last day. */
    @Test
    void anOpenedFilterEndsWithItsLastDay() {
        ferrow.decides("filter.good-once-opened/H20", "P7D", "2026-08-01");
        assertThat(ferrow.may("Kay", "T4").with("S-1").from("2026-08-10T20:00", "2026-08-11T00:00"))
                .isCleared();
        assertThat(ferrow.may("Kay", "T4").with("S-1").from("2026-08-10T20:00", "2026-08-11T02:00"))
                .isNotCleared()
                .onlyBecauseOf(FILTER_LIFE)
                .since(FILTER_LIFE, ferrow.instant("2026-08-11T00:00"));
    }

    @Test
    void aFilterThatNobodySawFittedIsUnknownWhereThereIsASchedule() {
        ferrow.decides("filter.longest-use/H20", "PT10H", "2026-08-01")
                .set("S-2", "H20", "M")
                .examined("S-2", "190", "FI-1", "2026-08-03T10:00");
        assertThat(ferrow.may("Kay", "T4").with("S-2").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .isNotCleared()
                .onlyBecauseOf(FILTER_LIFE)
                .because(FILTER_LIFE, Why.MISSING);
    }

    /** A model's own name for the place: ten hours, of which two are used up. */
    @ParameterizedTest
    @ValueSource(strings = {"Filter", "FILTER", " filter "})
    void aFilterGoesByTheModelsOwnNameForItsPlace(String place) {
        ferrow.tell(Draft.of(withFilter(place), ferrow.id("H20"), ferrow.instant("2026-08-03T09:00")))
                .set("S-2", "H20", "M")
                .tell(filter("S-2", place, "2026-08-03T09:30"))
                .examined("S-2", "190", "FI-1", "2026-08-03T10:00")
                .on("2026-08-04T06:00")
                .wore("Kay", "S-2", "T4", "2026-08-03T13:00", "2026-08-03T15:00")
                .decides("filter.longest-use/H20", "PT10H", "2026-08-01");
        assertThat(ferrow.may("Kay", "T4").with("S-2").from("2026-08-04T07:00", "2026-08-04T09:00"))
                .isCleared()
                .has(FILTER_LIFE, Result.MET, Why.IN_PLACE);
        assertThat(ferrow.may("Kay", "T4").with("S-2").from("2026-08-04T07:00", "2026-08-04T15:30"))
                .isNotCleared()
                .because(FILTER_LIFE, Why.FILTER_HOURS)
                .since(FILTER_LIFE, ferrow.instant("2026-08-04T15:00"));
    }

    /** Fitted under one name and again under the other: the newer one counts, and only what was worn since. */
    @Test
    void aPlaceThatIsCalledOtherwiseNowIsTheSamePlace() {
        ferrow.decides("filter.longest-use/H20", "PT10H", "2026-08-01")
                .on("2026-08-04T06:00")
                .wore("Kay", "S-1", "T4", "2026-08-03T10:30", "2026-08-03T18:30")
                .tell(Draft.of(withFilter("Filter"), ferrow.id("H20"), ferrow.instant("2026-08-04T05:00")))
                .tell(filter("S-1", "Filter", "2026-08-04T05:10"));
        assertThat(ferrow.may("Kay", "T4").with("S-1").from("2026-08-04T07:00", "2026-08-04T16:00"))
                .has(FILTER_LIFE, Result.MET, Why.IN_PLACE);
    }

    private Draft filter(String at) {
        return filter("S-1", "filter", at);
    }

    private Draft filter(String label, String place, String at) {
        return Draft.of(new PartChange("F-H20", null, null, null, true, null), ferrow.id(label), ferrow.instant(at))
                .scope(place);
    }

    private static ModelData withFilter() {
        return withFilter("filter");
    }

    private static ModelData withFilter(String place) {
        return new ModelData(
                "H20",
                POWERED_HOOD,
                Map.of("uk", "TH2"),
                false,
                Set.of("S", "M", "L"),
                "R1",
                new java.math.BigDecimal("170"),
                ModelData.FlowAt.LOCAL,
                480,
                Set.of(FilterKind.PARTICLE),
                List.of(),
                null,
                List.of(new ModelData.Slot(place, Set.of("F-H20"), null)));
    }
}
