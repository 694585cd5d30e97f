package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class TaskPagesTest {

    @Autowired
    Desk desk;

    @Test
    void anAssessmentNamesEachSubstanceOnItsLine() {
        var version = desk.sit(Role.HYGIENIST)
                .records(
                        "/tasks/BLAST/basis",
                        "exposures",
                        "silica; 0.42; mg/m3\ncobalt; 0.01; mg/m3",
                        "mixture",
                        "ADDITIVE",
                        "atmosphere",
                        "ORDINARY",
                        "workRate",
                        "HEAVY",
                        "interfaces",
                        "POWERED_HOOD",
                        "lastDay",
                        "2099-12-31",
                        "at",
                        "2098-01-01T06:00");
        TaskBasis basis = (TaskBasis) version.told().fact();
        assertThat(basis.exposures())
                .containsExactly(
                        new TaskBasis.Exposure("silica", new BigDecimal("0.42"), "mg/m3"),
                        new TaskBasis.Exposure("cobalt", new BigDecimal("0.01"), "mg/m3"));
        assertThat(basis.interfaces()).containsExactly(InterfaceType.POWERED_HOOD);
    }

    @Test
    void aLineThatCannotBeReadIsNamed() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        assertThat(seat.refuses(
                        "/tasks/BLAST/basis",
                        "exposures",
                        "silica; much; mg/m3",
                        "mixture",
                        "ADDITIVE",
                        "atmosphere",
                        "ORDINARY",
                        "workRate",
                        "HEAVY"))
                .contains("silica; much; mg/m3", "href=\"#exposures\"");
        assertThat(seat.refuses(
                        "/tasks/BLAST/basis",
                        "exposures",
                        "silica",
                        "mixture",
                        "ADDITIVE",
                        "atmosphere",
                        "ORDINARY",
                        "workRate",
                        "HEAVY"))
                .contains("needs its value");
    }

    @Test
    void aQuestionIsOpenedAndSettled() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        var opened = seat.records("/tasks/BLAST/trigger", "what", "other grit");
        assertThat(Desk.text(seat.get("/tasks/BLAST/trigger/end"))).contains("other grit");
        var closed = seat.records(
                "/tasks/BLAST/trigger/end", "opened", opened.told().id().toString(), "note", "sampled again");
        assertThat(closed.told().item()).isEqualTo(opened.told().id().value());
    }

    @Test
    void aResultAndTheHeatAreRecorded() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        var result = seat.records(
                "/tasks/BLAST/exposure-result",
                "substance",
                "silica",
                "value",
                "0.3",
                "unit",
                "mg/m3",
                "belowDetection",
                "NO",
                "person",
                "W-1",
                "at",
                "2026-03-02T07:00");
        assertThat(result.told().scope()).isEqualTo("silica");
        assertThat(((ExposureResult) result.told().fact()).person()).isEqualTo("W-1");
        assertThat(seat.refuses(
                        "/tasks/BLAST/exposure-result",
                        "substance",
                        "silica",
                        "value",
                        "0.3",
                        "unit",
                        "mg/m3",
                        "belowDetection",
                        "NO",
                        "person",
                        "W-9"))
                .contains("W-9");
        seat.records("/tasks/BLAST/condition", "value", "28.5");
        assertThat(seat.refuses("/tasks/BLAST/condition", "value", "285"))
                .contains("Heat (WBGT) 285", "href=\"#value\"");
    }

    @Test
    void aLimitNamesWhatStopsTheSubstance() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        var limit = seat.records(
                "/limits/new",
                "substance",
                "silica",
                "value",
                "0.1",
                "unit",
                "mg/m3",
                "filters",
                "PARTICLE",
                "airFedOnly",
                "NO",
                "source",
                "EH40/2005",
                "mark",
                "RESTATED");
        assertThat(limit.told().scope()).isEqualTo("silica");
        assertThat(seat.refuses(
                        "/limits/new",
                        "substance",
                        "silica",
                        "value",
                        "0.1",
                        "unit",
                        "mg/m3",
                        "airFedOnly",
                        "NO",
                        "source",
                        "EH40/2005",
                        "mark",
                        "RESTATED"))
                .contains("href=\"#filters\"");
    }
}
