package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.BREATHING_APPARATUS;
import static org.hoodkeeper.facts.InterfaceType.FULL_MASK;
import static org.hoodkeeper.rules.RequirementKind.EXAMINATION;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.util.Map;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.TaskBasis;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/**
 * 29 CFR 1910.134(h)(3)(iii): in addition to the check before each use, self-contained apparatus is inspected monthly, routine use
 * or not. (h)(3)(i)(A): a mask in routine use is not.
 */
@ScenarioTest
class ApparatusExaminationTests {

    @Autowired
    Story.Door door;

    private Story pine;

    @BeforeEach
    void apparatusAndAMask() {
        pine = door.pineBasin()
                .worker("Bo")
                .model(
                        "BA",
                        BREATHING_APPARATUS,
                        Map.of("us-federal", "self-contained pressure-demand full"),
                        null,
                        false,
                        null)
                .model("F50", FULL_MASK, Map.of("us-federal", "air-purifying full"), null, false, null)
                .limit("silica", "0.05", FilterKind.PARTICLE)
                .task("F1", "silica", "1", TaskBasis.Atmosphere.IDLH)
                .posted("Bo", "F1")
                .set("B-1", "BA", "M")
                .set("F-1", "F50", "M")
                .on("2026-05-20T12:00");
    }

    private Answer with(String set, String day) {
        return pine.may("Bo", "F1").with(set).from(day + "T06:00", day + "T06:20");
    }

    @Test
    void apparatusThatNobodyEverExaminedIsNotWorn() {
        Answer answer = with("B-1", "2026-05-21");
        assertThat(answer).isNotCleared().because(EXAMINATION, Why.MISSING);
        assertThat(answer.of(EXAMINATION))
                .extracting(Reason::demand)
                .allSatisfy(demand -> assertThat(demand.code()).isEqualTo("us-federal.examination.apparatus"));
    }

    /** A year ago is long over; from 21 April a month lasts to 21 May, its last day included. */
    @Test
    void anExaminationOfApparatusIsGoodForAMonth() {
        pine.examined("B-1", null, "none", "2025-05-01T10:00");
        assertThat(with("B-1", "2026-05-21")).because(EXAMINATION, Why.OVERDUE_UNUSED);
        pine.examined("B-1", null, "none", "2026-04-21T10:00");
        assertThat(with("B-1", "2026-05-21")).has(EXAMINATION, Result.MET, Why.IN_PLACE);
        assertThat(with("B-1", "2026-05-22")).because(EXAMINATION, Why.OVERDUE_UNUSED);
    }

    @Test
    void aMaskInRoutineUseIsAskedForNone() {
        assertThat(with("F-1", "2026-05-21")).has(EXAMINATION, Result.NOT_APPLICABLE, Why.NOT_REQUIRED);
    }
}
