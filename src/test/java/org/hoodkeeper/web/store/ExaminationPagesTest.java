package org.hoodkeeper.web.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.net.http.HttpClient;
import java.net.http.HttpResponse;
import java.util.UUID;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Examinations;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** What is to be examined, and the certificate of an examination with the fields of ACoP L5, 184. */
@OverHttp
@Import(StoreStory.class)
class ExaminationPagesTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @Autowired
    Examinations examinations;

    private Browser storekeeper;
    private Browser officer;
    private String at;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-20T15:00")
                .worker("Kay", "H20")
                .set("S-098", "H20", "2026-09-01T09:00")
                .set("S-131", "H20", "2026-09-01T09:00")
                .set("S-140", "H20", "2026-09-01T09:00")
                .set("S-201", "H20", "2026-09-01T09:00");
        at = "/sites/" + story.site().code();
        storekeeper = signedIn(Role.STOREKEEPER);
        officer = signedIn(Role.OFFICER);
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private Browser signedIn(Role role) {
        Browser browser = new Browser(port);
        browser.signIn(people.person(story.site(), role).login(), TestPeople.PASSWORD);
        return browser;
    }

    private String page(Browser browser, String path) {
        HttpResponse<String> answer = browser.get(at + path);
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        return answer.body().replace('\u202f', ' ');
    }

    private UUID examined(String label, Outcome outcome, String reading, String note, String local) {
        Examination examination = new Examination(
                outcome,
                reading == null ? null : new BigDecimal(reading),
                reading == null
                        ? null
                        : story.in(() -> story.kit().instrument(story.site().id(), "FM-1"))
                                .id(),
                "E. Examiner",
                note);
        return story.in(() ->
                        examinations.record(story.author(), story.id(label), examination, story.instant(local), null))
                .value();
    }

    /** UK, a set that is worn: a month. Examined on 19 October and worn since: over with 19 November. */
    @Test
    void theListSaysWhatIsOverdueAndWhatFallsDueAndWhereEachSetIs() {
        examined("S-098", Outcome.PASS, "190", "Sound", "2026-10-19T09:00");
        story.wore("Kay", "S-098", "2026-10-20T08:00", "2026-10-20T12:00");
        examined("S-131", Outcome.PASS, "190", "Sound", "2026-10-24T09:00");
        examined("S-140", Outcome.PASS, "190", "Sound", "2026-11-19T09:00");
        assertThat(page(storekeeper, "/examinations"))
                .contains(
                        "Examinations: 2 overdue, 0 due before the next use, 1 more within a week, 1 more within a month.")
                .contains("24 Nov 2026", "19 Dec 2026", "Main store")
                .contains("Last examined on 19 Oct 2026, overdue since 20 Nov 2026")
                .contains("No examination is on record.")
                .contains("Approved Code of Practice L5, 6th edition 2013, paragraphs 181 and 182")
                .contains(at + "/sets/S-201/examination\"");
        assertThat(page(storekeeper, "/examinations?due=WEEK"))
                .contains("/sets/S-131\"")
                .doesNotContain("/sets/S-098\"", "/sets/S-140\"");
        assertThat(page(storekeeper, "/examinations?due=LATER")).contains("Nothing is due then.");
        assertThat(page(storekeeper, "/examinations?due=nonsense")).contains("/sets/S-098\"");
        assertThat(page(officer, "/examinations")).doesNotContain("/sets/S-201/examination\"");
    }

    @Test
    void aSetThatNobodyWoreIsDueBeforeItsNextUse() {
        examined("S-098", Outcome.PASS, "190", "Sound", "2026-10-10T09:00");
        assertThat(page(storekeeper, "/examinations?due=BEFORE_USE"))
                .contains("Before next use")
                .contains("not worn since, so it is due before the next use");
    }

    @Test
    void aSiteWithoutSetsSaysWhatWouldBeHere() {
        story.begin("2026-11-20T15:00");
        at = "/sites/" + story.site().code();
        storekeeper = signedIn(Role.STOREKEEPER);
        assertThat(page(storekeeper, "/examinations"))
                .contains("There are no sets to examine on this site yet.")
                .contains("Each set that a rule wants examined appears here");
    }

    private HttpResponse<String> particulars(String employer, String makers, String step) {
        officer.get(at + "/particulars");
        return officer.post(
                at + "/particulars",
                "employer",
                employer,
                "address",
                "1 Quarry Road, Ferrow",
                "makers",
                makers,
                "at",
                "2026-09-01T08:00",
                "formKey",
                UUID.randomUUID().toString(),
                "step",
                step);
    }

    @Test
    void theCertificateHasEveryParticularAndSaysWhatNobodyRecorded() throws IOException, InterruptedException {
        UUID record = examined("S-098", Outcome.PASS, "188", "Visor scratched; filter clean", "2026-11-19T09:00");
        String certificate = "/sets/S-098/examinations/" + record;
        assertThat(page(officer, certificate))
                .contains("S-098 was examined and tested on 19 Nov 2026, 09:00, and passed.")
                .contains("Particulars that nobody recorded: 4.")
                .contains("not on record");
        assertThat(particulars("Ferrow Works Ltd", "H20 = Lowmoor Makers\r\n", "record")
                        .statusCode())
                .isEqualTo(302);
        assertThat(page(storekeeper, certificate))
                .contains("Ferrow Works Ltd", "1 Quarry Road, Ferrow")
                .contains("H20 H20, powered hood, size M", "Lowmoor Makers", "E. Examiner")
                .contains("Visor scratched; filter clean")
                .contains("188 L/min", "188.0 L/min", "170 L/min", "yes, and it passed")
                .contains("Particulars that nobody recorded: 1.");
        HttpResponse<byte[]> paper = HttpClient.newHttpClient()
                .send(
                        storekeeper.request(at + certificate + ".pdf").GET().build(),
                        HttpResponse.BodyHandlers.ofByteArray());
        assertThat(paper.statusCode()).isEqualTo(200);
        try (var document = Loader.loadPDF(paper.body())) {
            assertThat(new PDFTextStripper().getText(document).replaceAll("\\s+", " "))
                    .contains("S-098 was examined and tested on 19 Nov 2026, 09:00, and passed.")
                    .contains("Ferrow Works Ltd", "Lowmoor Makers", "E. Examiner", "188.0", "not on record", "Signed");
        }
    }

    @Test
    void anExaminationWithoutAFlowSaysSo() {
        UUID record = examined("S-131", Outcome.FAIL, null, "Hose split", "2026-11-19T09:00");
        assertThat(page(storekeeper, "/sets/S-131/examinations/" + record))
                .contains("and did not pass.", "Hose split")
                .contains("Measured volume flow, as shown");
        assertThat(storekeeper.get(at + "/sets/S-098/examinations/" + record).statusCode())
                .isEqualTo(404);
        assertThat(storekeeper.get(at + "/sets/S-098/examinations/nonsense").statusCode())
                .isEqualTo(404);
    }

    @Test
    void makersThatCannotBeReadAreRefusedAndStayTyped() {
        HttpResponse<String> line = particulars("Ferrow Works Ltd", "H20 Lowmoor", "check");
        assertThat(line.statusCode()).isEqualTo(422);
        assertThat(line.body())
                .contains("“H20 Lowmoor” is not a code, an equals sign and a maker.", "Ferrow Works Ltd");
        assertThat(particulars("Ferrow Works Ltd", "H99 = Lowmoor", "check").body())
                .contains("There is no model “H99” on this site.");
        assertThat(particulars(" ", "H20 = Lowmoor", "check").statusCode()).isEqualTo(422);
        assertThat(page(officer, "/particulars")).doesNotContain("Ferrow Works Ltd");
    }
}
