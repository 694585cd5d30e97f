package org.hoodkeeper.web.trainer;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class FitTestControllerTest {

    @Autowired
    Desk desk;

    private static final String FACTORS = "2500 2500 2500 2500 2500 2500 1500";

    /** The UK asks every exercise of a full mask for 2,000. */
    @Test
    void theRuleSetSaysHowItCameOutBeforeAnythingIsRecorded() {
        Desk.Seat seat = desk.sit(Role.TRAINER);
        var version = seat.records(
                "/workers/W-1/fit-test",
                "model",
                "MASK-B",
                "size",
                "M",
                "sealRevision",
                "R1",
                "method",
                "QUANTITATIVE",
                "exercises",
                FACTORS,
                "outcome",
                "PASS");
        assertThat(((FitTest) version.told().fact()).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(((FitTest) version.told().fact()).exercises()).hasSize(7).startsWith(new BigDecimal("2500"));
        assertThat(version.told().scope()).isEqualTo("MASK-B/M/R1");
    }

    @Test
    void aFactorThatIsNoNumberIsNamed() {
        assertThat(desk.sit(Role.TRAINER)
                        .refuses(
                                "/workers/W-1/fit-test",
                                "model",
                                "MASK-B",
                                "size",
                                "M",
                                "sealRevision",
                                "R1",
                                "method",
                                "QUANTITATIVE",
                                "exercises",
                                "2500 many 2500 2500",
                                "outcome",
                                "PASS"))
                .contains("“many” is no fit factor", "href=\"#exercises\"");
    }

    @Test
    void aSizeThatTheModelDoesNotHaveIsNamedBesideIt() {
        assertThat(desk.sit(Role.TRAINER)
                        .refuses(
                                "/workers/W-1/fit-test",
                                "model",
                                "MASK-B",
                                "size",
                                "XL",
                                "sealRevision",
                                "R1",
                                "method",
                                "QUALITATIVE",
                                "outcome",
                                "PASS"))
                .contains("does not come in size XL", "href=\"#size\"");
    }
}
