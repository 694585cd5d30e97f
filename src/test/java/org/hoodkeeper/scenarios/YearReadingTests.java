package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.TRAINING;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.util.Map;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.rules.YearReading;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/**
 * Training on 1 March 2027, asked for on 1 March 2028: OSHA letter of 24 January 2007 (at most 365 days), OSHA letter of 23
 * December 1998 (on or before the anniversary), and calendar months as in Dodds v Walker (1981).
 */
@ScenarioTest
class YearReadingTests {

    @Autowired
    Story.Door door;

    private Story pineBasinWithBo() {
        return door.pineBasin()
                .worker("Bo")
                .limit("silica", "0.05", FilterKind.PARTICLE)
                .task("T4", "silica", "0.3")
                .model("H20", POWERED_HOOD, Map.of("us-federal", "powered loose-fitting facepiece"), "170", false, 480)
                .posted("Bo", "T4")
                .decides("year.reading", "at-most-365-days", "2020-01-01")
                .on("2027-03-02T09:00")
                .trained("Bo", "H20", "2027-03-01T09:00")
                .medical("Bo", fit(), "2027-02-01T09:00");
    }

    @Test
    void atMost365DaysEndsOnLeapDay() {
        Story pine = pineBasinWithBo().on("2028-02-25T09:00");
        assertThat(pine.may("Bo", "T4").withModel("H20", "M").from("2028-02-29T06:00", "2028-02-29T14:00"))
                .isCleared()
                .isDueSoon(TRAINING, "2028-02-29");
        assertThat(pine.may("Bo", "T4").withModel("H20", "M").from("2028-03-01T06:00", "2028-03-01T14:00"))
                .isNotCleared()
                .onlyBecauseOf(TRAINING)
                .because(TRAINING, Why.LAPSED);
    }

    @Test
    void calendarMonthsReachTheCorrespondingDay() {
        Story ferrow = door.ferrow()
                .worker("Cy")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .posted("Cy", "T4")
                .on("2027-03-02T09:00")
                .trained("Cy", "H20", "2027-03-01T09:00")
                .on("2028-02-25T09:00");
        assertThat(ferrow.may("Cy", "T4").withModel("H20", "M").from("2028-03-01T06:00", "2028-03-01T14:00"))
                .isCleared();
        assertThat(ferrow.may("Cy", "T4").withModel("H20", "M").from("2028-03-02T06:00", "2028-03-02T14:00"))
                .isNotCleared()
                .because(TRAINING, Why.LAPSED);
    }

    @Test
    void aReasonForLatenessIsOnRecordButClearsNothing() {
        Story pine = pineBasinWithBo().on("2028-02-25T09:00");
        pine.tell(new Booking(Kind.TRAINING, "Trainer ill"), "Bo", "2028-03-03T09:00");
        var answer = pine.may("Bo", "T4").withModel("H20", "M").from("2028-03-01T06:00", "2028-03-01T14:00");
        assertThat(answer).isNotCleared().onlyBecauseOf(TRAINING);
        Assertions.assertThat(answer.clearBy())
                .anyMatch(action -> action.kind() == TRAINING
                        && pine.instant("2028-03-03T09:00").equals(action.at()));
    }

    @Test
    void aLaterChangeOfTheReadingLeavesThePastAsItWasKnown() {
        Story pine = pineBasinWithBo().on("2028-04-02T09:00");
        pine.decides("year.reading", "anniversary", "2028-04-01");
        var asKnownThen = pine.may("Bo", "T4")
                .withModel("H20", "M")
                .asKnownAt("2028-03-01T05:00")
                .from("2028-03-01T06:00", "2028-03-01T14:00");
        assertThat(asKnownThen).isNotCleared().because(TRAINING, Why.LAPSED);
        Assertions.assertThat(asKnownThen.yearReadings()).containsExactly(YearReading.AT_MOST_365_DAYS);
        var asKnownNow = pine.may("Bo", "T4").withModel("H20", "M").from("2028-03-01T06:00", "2028-03-01T14:00");
        assertThat(asKnownNow).isNotCleared().because(TRAINING, Why.LAPSED);
        Assertions.assertThat(asKnownNow.yearReadings()).containsExactly(YearReading.AT_MOST_365_DAYS);
    }

    /** A night from 31 March to 1 April 2028, on which the anniversary begins to count. */
    @Test
    void anAnswerAcrossAChangeNamesBothReadings() {
        Story pine = pineBasinWithBo()
                .on("2028-03-31T12:00")
                .trained("Bo", "H20", "2028-03-30T09:00")
                .decides("year.reading", "anniversary", "2028-04-01");
        Answer night = pine.may("Bo", "T4").withModel("H20", "M").from("2028-03-31T22:00", "2028-04-01T04:00");
        assertThat(night).isCleared();
        Assertions.assertThat(night.yearReadings())
                .containsExactly(YearReading.AT_MOST_365_DAYS, YearReading.ANNIVERSARY);
        Assertions.assertThat(pine.may("Bo", "T4")
                        .withModel("H20", "M")
                        .from("2028-04-01T00:00", "2028-04-01T04:00")
                        .yearReadings())
                .containsExactly(YearReading.ANNIVERSARY);
    }

    private static MedicalOutcome fit() {
        return new MedicalOutcome(MedicalOutcome.Result.FIT, java.util.Set.of(), null, null, null, false, null, null);
    }
}
