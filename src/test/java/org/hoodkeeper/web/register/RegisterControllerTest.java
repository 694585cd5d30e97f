package org.hoodkeeper.web.register;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MvcResult;

/** What the site holds, and how somebody adds to it without a file. */
@RecordingPage
class RegisterControllerTest {

    @Autowired
    Desk desk;

    @Test
    void eachRoleIsOfferedWhatItKeeps() {
        Desk.Seat officer = desk.sit(Role.OFFICER);
        assertThat(Desk.text(officer.get("/register")))
                .contains("/new-worker", "/new-task", "/new-model", "/models/MASK-B/data")
                .doesNotContain("/new-instrument");
        assertThat(Desk.text(desk.sit(officer.laid, Role.STOREKEEPER).get("/register")))
                .contains("/new-set", "/new-instrument", "/new-supply")
                .doesNotContain("/new-worker", "/models/MASK-B/data");
        assertThat(Desk.text(desk.sit(officer.laid, Role.HYGIENIST).get("/register?lang=es")))
                .contains("/tasks/BLAST/basis", "El sitio tiene")
                .doesNotContain("/new-instrument", "??");
    }

    @Test
    void aWorkerIsAddedWithAFirstPosting() {
        Desk.Seat officer = desk.sit(Role.OFFICER);
        String[] answers = {
            "number",
            "W-77",
            "name",
            "Cy Invented",
            "employer",
            "Northmere",
            "task",
            "BLAST",
            "lastDay",
            "2026-07-31",
            "at",
            "2026-07-01T06:00"
        };
        assertThat(adds(officer, "/new-worker", answers)).endsWith("/workers/W-77");
        assertThat(Desk.text(officer.get("/workers/W-77"))).contains("Cy Invented", "posting", "1 Jul 2026, 06:00");
        assertThat(Desk.text(desk.sit(officer.laid, Role.OFFICER).get("/board")))
                .contains("Northmere");
    }

    @Test
    void aWorkerIsNotAddedByHalf() {
        Desk.Seat officer = desk.sit(Role.OFFICER);
        assertThat(officer.refuses("/new-worker", "number", "W-1", "name", "Somebody else"))
                .contains("The number “W-1” already belongs to another worker.", "Somebody else");
        assertThat(officer.refuses("/new-worker", "number", "W-78", "name", "Di", "lastDay", "2026-07-31"))
                .contains("Choose the task, or leave the day empty.");
        assertThat(officer.refuses(
                        "/new-worker",
                        "number",
                        "W-78",
                        "name",
                        "Di",
                        "task",
                        "BLAST",
                        "lastDay",
                        "2026-06-30",
                        "at",
                        "2026-07-01T06:00"))
                .contains("href=\"#lastDay\"");
        assertThat(officer.refuses("/new-worker", "number", "W 78", "name", "Di"))
                .contains("“W 78”");
        assertThat(Desk.status(officer.get("/workers/W-78"))).isEqualTo(404);
    }

    @Test
    void aTaskIsAddedAndItsAssessmentComesNext() {
        Desk.Seat hygienist = desk.sit(Role.HYGIENIST);
        assertThat(adds(hygienist, "/new-task", "code", "CUT-2")).endsWith("/tasks/CUT-2/basis");
        assertThat(Desk.status(hygienist.get("/tasks/CUT-2/basis"))).isEqualTo(200);
        Desk.Seat officer = desk.sit(hygienist.laid, Role.OFFICER);
        assertThat(adds(officer, "/new-task", "code", "CUT-3")).endsWith("/register?added=CUT-3");
        assertThat(Desk.text(officer.get("/register?added=CUT-3"))).contains("Nobody is cleared for it before");
        assertThat(officer.refuses("/new-task", "code", "BLAST")).contains("already names another task");
    }

    @Test
    void aModelIsAddedWithWhatItsMakerSays() {
        Desk.Seat officer = desk.sit(Role.OFFICER);
        String[] answers = {
            "code", "HOOD-9", "name", "Invented hood nine", "type", "POWERED_HOOD", "classes", "uk = TH2",
                    "skinContact",
            "NO", "sizes", "S M", "sealRevision", "R1", "minimumFlow", "175", "flowAt", "LOCAL"
        };
        assertThat(adds(officer, "/new-model", answers)).endsWith("/register?added=HOOD-9");
        assertThat(Desk.text(officer.get("/register?added=HOOD-9")))
                .contains("HOOD-9 is on the list.", "Invented hood nine", "/models/HOOD-9/data");
        answers[1] = "HOOD-10";
        answers[15] = "5000";
        assertThat(officer.refuses("/new-model", answers)).contains("value=\"5000\"", "href=\"#minimumFlow\"");
        answers[1] = "MASK-B";
        answers[15] = "175";
        assertThat(officer.refuses("/new-model", answers)).contains("already names another model");
    }

    @Test
    void aHeldInstrumentMeasuresNothingUntilItIsReleased() {
        Desk.Seat store = desk.sit(Role.STOREKEEPER);
        assertThat(adds(store, "/new-instrument", "code", "FI-9")).contains("/instruments/FI-9?done=");
        assertThat(Desk.text(store.get("/instruments/FI-9"))).contains("Not valid", "/instruments/FI-9/hold");
        String hold = adds(store, "/instruments/FI-9/hold", "why", "IMPOUNDED", "reason", "dropped");
        assertThat(Desk.text(store.get(hold.substring(hold.indexOf("/instruments")))))
                .contains("FI-9 is held", "/instruments/FI-9/release");
        assertThat(store.refuses(
                        "/instruments/FI-9/release", "placed", UUID.randomUUID().toString(), "reason", "ok"))
                .contains("role=\"alert\"");
        assertThat(store.refuses("/instruments/FI-9/release", "placed", "nothing", "reason", "ok"))
                .contains("role=\"alert\"");
        adds(
                store,
                "/instruments/FI-9/release",
                "placed",
                placed(store, "/instruments/FI-9/release"),
                "reason",
                "sound");
        assertThat(Desk.text(store.get("/instruments/FI-9"))).doesNotContain("FI-9 is held");
    }

    @Test
    void aHeldSupplyIsNotBreathedFrom() {
        Desk.Seat store = desk.sit(Role.STOREKEEPER);
        assertThat(adds(store, "/new-supply", "code", "AIR-9")).contains("/supplies/AIR-9?done=");
        assertThat(store.refuses("/new-supply", "code", "AIR-9")).contains("already names another air supply");
        adds(store, "/supplies/AIR-9/hold", "why", "UNDER_REPAIR", "reason", "purifier open");
        assertThat(Desk.text(store.get("/supplies/AIR-9")))
                .contains("AIR-9 must not be used.", "/supplies/AIR-9/release");
        adds(store, "/supplies/AIR-9/release", "placed", placed(store, "/supplies/AIR-9/release"), "reason", "closed");
        assertThat(Desk.text(store.get("/supplies/AIR-9"))).doesNotContain("must not be used");
        assertThat(Desk.text(store.get("/supplies/AIR-9/release"))).contains("No hold lies on AIR-9.");
    }

    private static String placed(Desk.Seat seat, String path) {
        String page = Desk.text(seat.get(path));
        Matcher radio = Pattern.compile("id=\"placed\" value=\"([^\"]+)\" name=\"placed\"")
                .matcher(page);
        assertThat(radio.find()).as(page).isTrue();
        return radio.group(1);
    }

    /** Opens the page, looks the answers over, records them twice, and gives the one address both led to. */
    private static String adds(Desk.Seat seat, String path, String... namesAndValues) {
        assertThat(Desk.status(seat.get(path))).as("GET %s", path).isEqualTo(200);
        Map<String, String> fields = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            fields.put(namesAndValues[i], namesAndValues[i + 1]);
        }
        fields.put("formKey", UUID.randomUUID().toString());
        fields.put("step", "check");
        MvcResult check = seat.post(path, fields);
        assertThat(Desk.status(check)).as(Desk.text(check)).isEqualTo(200);
        assertThat(Desk.text(check))
                .contains(Arrays.asList("value=\"record\"", "value=\"change\""))
                .doesNotContain("??");
        fields.put("step", "record");
        MvcResult recorded = seat.post(path, fields);
        assertThat(Desk.status(recorded)).as(Desk.text(recorded)).isEqualTo(302);
        String target = String.valueOf(recorded.getResponse().getRedirectedUrl());
        assertThat(seat.post(path, fields).getResponse().getRedirectedUrl()).isEqualTo(target);
        return target;
    }
}
