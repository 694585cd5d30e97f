package org.hoodkeeper.web.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.kernel.Role;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MvcResult;

@RecordingPage
class SheetsTest {

    @Autowired
    Desk desk;

    @Test
    void goingBackKeepsWhatWasTyped() {
        Desk.Seat seat = desk.sit(Role.SUPERVISOR);
        Map<String, String> fields = fields("change", "round at nine");
        MvcResult page = seat.post("/workers/W-1/observation", fields);
        assertThat(Desk.status(page)).isEqualTo(200);
        assertThat(Desk.text(page)).contains("round at nine", "checked").doesNotContain("role=\"alert\"");
    }

    /** The first record stands; the second form tells so and records nothing. */
    @Test
    void oneKeyIsGoodForOneContent() {
        Desk.Seat seat = desk.sit(Role.SUPERVISOR);
        Map<String, String> fields = fields("record", "round at nine");
        assertThat(Desk.status(seat.post("/workers/W-1/observation", fields))).isEqualTo(302);
        fields.put("note", "round at ten");
        MvcResult other = seat.post("/workers/W-1/observation", fields);
        assertThat(Desk.status(other)).isEqualTo(422);
        assertThat(Desk.text(other)).contains("already been recorded", "round at ten");
    }

    @Test
    void aFormWithoutItsKeyIsNotRecorded() {
        Desk.Seat seat = desk.sit(Role.SUPERVISOR);
        Map<String, String> fields = fields("record", "round at nine");
        fields.remove("formKey");
        assertThat(Desk.status(seat.post("/workers/W-1/observation", fields))).isEqualTo(422);
    }

    @Test
    void theAnswersAreShownInWords() {
        Desk.Seat seat = desk.sit(Role.HEALTH);
        Map<String, String> fields = new LinkedHashMap<>(
                Map.of("result", "FIT_WITH_LIMITS", "maxWearMinutes", "240", "neverAlone", "YES", "step", "check"));
        fields.put("formKey", UUID.randomUUID().toString());
        assertThat(Desk.text(seat.post("/workers/W-1/medical-outcome", fields)))
                .contains("Fit with limits", "240\u202fmin", "Now, as it is recorded", "Ada Invented");
    }

    private static Map<String, String> fields(String step, String note) {
        Map<String, String> fields = new LinkedHashMap<>();
        fields.put("seen", "WORN_RIGHT");
        fields.put("note", note);
        fields.put("step", step);
        fields.put("formKey", UUID.randomUUID().toString());
        return fields;
    }
}
