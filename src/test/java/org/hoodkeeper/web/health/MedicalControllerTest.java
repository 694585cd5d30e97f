package org.hoodkeeper.web.health;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class MedicalControllerTest {

    @Autowired
    Desk desk;

    @Test
    void anOutcomeWithLimitsIsRecorded() {
        var version = desk.sit(Role.HEALTH)
                .records(
                        "/workers/W-1/medical-outcome",
                        "result",
                        "FIT_WITH_LIMITS",
                        "interfaces",
                        "POWERED_HOOD|AIRLINE_HOOD",
                        "maxWearMinutes",
                        "240",
                        "maxWbgt",
                        "27.5",
                        "maxWorkRate",
                        "MODERATE",
                        "neverAlone",
                        "YES",
                        "reviewOn",
                        "2099-01-31");
        MedicalOutcome outcome = (MedicalOutcome) version.told().fact();
        assertThat(outcome.interfaces())
                .containsExactlyInAnyOrder(InterfaceType.POWERED_HOOD, InterfaceType.AIRLINE_HOOD);
        assertThat(outcome.maxWearMinutes()).isEqualTo(240);
        assertThat(outcome.maxWbgt()).isEqualByComparingTo("27.5");
        assertThat(outcome.neverAlone()).isTrue();
        assertThat(outcome.reviewOn()).isEqualTo("2099-01-31");
    }

    @Test
    void limitsWithoutALimitAreRefusedBesideTheOutcome() {
        assertThat(desk.sit(Role.HEALTH)
                        .refuses("/workers/W-1/medical-outcome", "result", "FIT_WITH_LIMITS", "neverAlone", "NO"))
                .contains("needs at least one limit", "href=\"#result\"");
    }
}
