package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.io.IOException;
import java.io.StringReader;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.transaction.support.TransactionTemplate;

/** The file of an incident, read on the page and taken along on paper and as a table. */
@RecordingPage
class IncidentControllerTest {

    private static final Instant DAY = Instant.parse("2026-02-03T09:00:00Z");
    private static final String PERIOD = "&from=2026-02-01&until=2026-02-28";

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    @Autowired
    JdbcTemplate jdbc;

    private Desk.Seat officer;
    private TestSite.Laid laid;
    private RecordId training;

    /** Ada was trained the summer before, got a new visor, wore the hood, and said in private what she felt. */
    @BeforeEach
    void adaWoreTheHood() {
        officer = desk.sit(Role.OFFICER);
        laid = officer.laid;
        training = tell(Draft.of(
                        new Training(Outcome.PASS, true, "2", false, "planted-trainer"),
                        laid.worker(),
                        Instant.parse("2026-01-10T09:00:00Z"))
                .scope("HOOD-A"));
        tell(Draft.of(
                        new PartChange("V-1", "LOT-77", null, null, true, "planted-fitter"),
                        laid.hood(),
                        DAY.minusSeconds(3600))
                .scope("visor"));
        tell(Draft.of(new Custody(Custody.Claim.ISSUED, null, "planted-note"), laid.hood(), DAY.minusSeconds(60))
                .item(laid.worker()));
        tell(Draft.of(new Wear(laid.task(), Wear.Step.WHOLE), laid.worker(), DAY)
                .item(laid.hood())
                .until(DAY.plusSeconds(7200)));
        tell(Draft.of(
                new SymptomReport(SymptomReport.Step.REPORTED, "planted-symptom"),
                laid.worker(),
                DAY.plusSeconds(7300)));
        tell(Draft.of(
                new MedicalOutcome(
                        MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, "planted-doctor"),
                laid.worker(),
                DAY.plusSeconds(86_400)));
        tell(Draft.of(new Wear(laid.task(), Wear.Step.WHOLE), laid.other(), DAY.plusSeconds(90_000))
                .item(laid.hood())
                .until(DAY.plusSeconds(97_200)));
    }

    private RecordId tell(Draft draft) {
        return laid.in(() -> transaction.execute(status -> ledger.append(laid.author(), draft)));
    }

    @Test
    void thePersonsFileHoldsWearsSetsPartsAndWhatDecided() {
        String page = text(officer.get("/incident?about=WORKER&name=W-1" + PERIOD));
        assertThat(page)
                .contains("File of person W-1", "Wears: 1", "LOT-77", "An answer rests on it", "/records/" + training)
                .contains("The screen said:", "No record was kept here yet", "days late: ", "Rules in force: uk")
                .doesNotContain("planted-", "report of symptoms", "Bo Invented, BLAST");
    }

    /** The hose was fitted long before the period; the flow was proven by an indicator that was calibrated before it too. */
    @Test
    void theFileSaysWhatTheHoodWasMadeOfAndByWhatItsFlowWasProven() {
        RecordId hose = tell(Draft.of(
                        new PartChange("HO-1", "LOT-12", null, null, true, null),
                        laid.hood(),
                        Instant.parse("2026-01-12T09:00:00Z"))
                .scope("hose"));
        RecordId calibration = tell(Draft.of(
                new Calibration(
                        Outcome.PASS,
                        true,
                        BigDecimal.ONE,
                        BigDecimal.ZERO,
                        new BigDecimal("20"),
                        new BigDecimal("1013.25"),
                        LocalDate.parse("2027-01-11"),
                        "C-1",
                        null),
                laid.indicator(),
                Instant.parse("2026-01-12T09:00:00Z")));
        tell(Draft.of(
                new FlowCheck(
                        new BigDecimal("190"),
                        laid.indicator(),
                        null,
                        null,
                        new BigDecimal("190"),
                        new BigDecimal("170"),
                        BigDecimal.ZERO,
                        Outcome.PASS),
                laid.hood(),
                DAY.minusSeconds(30)));
        RecordId gone = tell(Draft.of(
                        new PartChange("HO-1", "LOT-11", null, null, true, null),
                        laid.hood(),
                        Instant.parse("2026-01-11T09:00:00Z"))
                .scope("hose"));
        for (String about : List.of("about=WORKER&name=W-1", "about=SET&name=H-1")) {
            assertThat(text(officer.get("/incident?" + about + PERIOD)))
                    .as(about)
                    .contains("LOT-12", "/records/" + hose, "/records/" + calibration, "set data")
                    .doesNotContain("LOT-11", gone.toString());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"about=SET&name=H-1", "about=TASK&name=BLAST"})
    void theFilesOfASetAndOfATaskHoldEveryWearOfThem(String about) {
        assertThat(text(officer.get("/incident?" + about + PERIOD)))
                .contains("Wears: 2", "Ada Invented", "Bo Invented")
                .doesNotContain("planted-", "report of symptoms");
    }

    @Test
    void theTableHasTheSameLines() throws IOException {
        MvcResult result = officer.get("/incident.csv?about=WORKER&name=W-1" + PERIOD);
        assertThat(status(result)).isEqualTo(200);
        assertThat(result.getResponse().getContentType()).startsWith("text/csv");
        assertThat(result.getResponse().getHeader("Content-Disposition")).contains("-worker-w-1.csv");
        List<CSVRecord> lines = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(text(result)))
                .getRecords();
        CSVRecord wear = lines.stream()
                .filter(line -> line.get("kind").equals("wear"))
                .findFirst()
                .orElseThrow();
        assertThat(wear.get("at")).isEqualTo("2026-02-03T09:00Z");
        assertThat(wear.get("until")).isEqualTo("2026-02-03T11:00Z");
        assertThat(wear.get("known_now")).isEqualTo("NOT_CLEARED");
        assertThat(wear.get("screen_said")).isEmpty();
        assertThat(lines).extracting(line -> line.get("record")).contains(training.toString());
        assertThat(text(result)).doesNotContain("planted-");
    }

    @Test
    void thePaperHasTheSameWordsInBothLanguages() throws IOException {
        String english = paper("/incident.pdf?about=WORKER&name=W-1" + PERIOD);
        assertThat(english)
                .contains(
                        "File of person W-1",
                        "LOT-77",
                        "Ada Invented",
                        "3 Feb 2026, 09:00",
                        "2 / 2",
                        training.toString())
                .doesNotContain("planted-", "#");
        String spanish = paper("/incident.pdf?about=WORKER&name=W-1&lang=es" + PERIOD);
        assertThat(spanish).contains("LOT-77").doesNotContain("planted-", "#");
    }

    private String paper(String path) throws IOException {
        MvcResult result = officer.get(path);
        assertThat(status(result)).as(text(result)).isEqualTo(200);
        assertThat(result.getResponse().getContentType()).isEqualTo("application/pdf");
        try (PDDocument document = Loader.loadPDF(result.getResponse().getContentAsByteArray())) {
            PDFTextStripper stripper = new PDFTextStripper();
            stripper.setSortByPosition(true);
            return stripper.getText(document).replace('\u00a0', ' ');
        }
    }

    @Test
    void aFileThatWasIssuedIsNamedWhereARecordInItIsCorrected() {
        assertThat(status(officer.get("/incident.csv?about=WORKER&name=W-1" + PERIOD)))
                .isEqualTo(200);
        Map<String, String> fields = new LinkedHashMap<>();
        fields.put("formKey", UUID.randomUUID().toString());
        fields.put("step", "record");
        fields.put("because", "it was another person");
        assertThat(status(officer.post("/records/" + training + "/withdrawal", fields)))
                .isEqualTo(302);
        assertThat(text(officer.get("/records/" + training)))
                .contains("Issued files that it stands in", "WORKER W-1 2026-02-01T00:00:00Z/2026-03-01T00:00:00Z csv");
        assertThat(laid.<Integer>in(() -> transaction.execute(status -> jdbc.queryForObject(
                        "select count(*) from issued_file where site_id = ? and octet_length(digest) = 32",
                        Integer.class,
                        laid.site().id().value()))))
                .isEqualTo(1);
        assertThat(text(officer.get("/incident?about=WORKER&name=W-1" + PERIOD)))
                .as("the file says what became of it")
                .contains("corrected or taken back later", "takes an earlier record back");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "about=WORKER&name=W-99&from=2026-02-01&until=2026-02-28",
                "about=PLACE&name=nowhere&from=2026-02-01&until=2026-02-28",
                "about=SHIP&name=W-1&from=2026-02-01&until=2026-02-28",
                "about=WORKER&name=W-1&from=soon&until=2026-02-28",
                "about=WORKER&name=W-1&from=2026-02-28&until=2026-02-01",
                "about=WORKER&name=W-1&from=2020-02-28&until=2026-02-01",
                "about=WORKER&from=2026-02-01&until=2026-02-28"
            })
    void whatCannotBeAskedIsSaidOnThePageAndRefusedAsAFile(String asked) {
        MvcResult page = officer.get("/incident?" + asked);
        assertThat(status(page)).isEqualTo(200);
        assertThat(text(page)).contains("role=\"alert\"");
        assertThat(status(officer.get("/incident.pdf?" + asked))).isBetween(400, 422);
        assertThat(status(officer.get("/incident.csv?" + asked))).isBetween(400, 422);
    }

    @Test
    void onlyTheOfficerTakesItAlong() {
        for (Role role : List.of(Role.SUPERVISOR, Role.STOREKEEPER, Role.ADMINISTRATOR, Role.HEALTH, Role.WORKER)) {
            assertThat(status(desk.sit(laid, role).get("/incident.pdf?about=WORKER&name=W-1" + PERIOD)))
                    .as(role.name())
                    .isEqualTo(403);
        }
    }

    /** 0.5 mg/m³ is 5 times a limit of 0.1. What was taken from the store is no part of anybody's story. */
    @Test
    void exposureReadsLikeTheTradeAndTheLimitDecidesToo() throws IOException {
        Instant january = Instant.parse("2026-01-06T07:00:00Z");
        Limit limit = new Limit(
                new BigDecimal("0.1"),
                "mg/m3",
                null,
                Set.of(FilterKind.PARTICLE),
                false,
                "EH40/2005",
                Mark.RESTATED,
                new BigDecimal("0.3"),
                null,
                null);
        RecordId ofSilica = tell(Draft.of(limit, laid.site().id(), january).scope("silica"));
        RecordId ofCobalt = tell(Draft.of(limit, laid.site().id(), DAY).scope("cobalt"));
        tell(Draft.of(
                        new ExposureResult(
                                new BigDecimal("0.62"), "mg/m3", false, 430, null, "planted-person", "planted-lab"),
                        laid.task(),
                        DAY)
                .scope("silica"));
        tell(Draft.of(new StockUse("LOT-5", 2, StockUse.Use.USED), laid.site().id(), DAY)
                .scope("F-P3"));
        String batch = "01a21604-4ae8-7340-939d-3b8c4ea4cea9";
        WashStep stripped = new WashStep(WashStep.Step.STRIPPED, null, null, null, null);
        WashStep washed = new WashStep(WashStep.Step.WASHED, new BigDecimal("38"), null, null, null);
        WashStep broken = new WashStep(WashStep.Step.BROKEN_OFF, null, null, null, null);
        tell(Draft.of(stripped, laid.site().id(), DAY.plusSeconds(172_700))
                .item(laid.hood())
                .scope(batch));
        tell(Draft.of(washed, laid.site().id(), DAY.plusSeconds(172_800)).scope(batch));
        tell(Draft.of(broken, laid.site().id(), DAY.plusSeconds(172_900))
                .scope("01a21604-4ae8-7340-939d-3b8c4ea4ceaf"));
        String page =
                text(officer.get("/incident?about=TASK&name=BLAST" + PERIOD)).replace('\u202f', ' ');
        assertThat(page)
                .contains(
                        "silica 0.5 mg/m³; 5 times the limit by itself; effects add up; ordinary air; moderate work",
                        "silica 0.62 mg/m³, whole shift, 430 min",
                        "silica 0.1 mg/m³; short-term 0.3 mg/m³; EH40/2005; as restated elsewhere",
                        "Stripped, to be washed",
                        "Washed, to be disinfected")
                .doesNotContain("planted-", "LOT-5", batch, "Broken off");
        assertThat(decides("TASK", "BLAST", ofSilica)).isEqualTo("true");
        assertThat(decides("TASK", "BLAST", ofCobalt)).isEqualTo("false");
        assertThat(text(officer.get("/incident?about=TASK&name=BLAST&lang=es" + PERIOD)))
                .contains("los efectos se suman", "turno entero", "llevado")
                .doesNotContain("additive");
    }

    private String decides(String about, String name, RecordId record) throws IOException {
        return CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(text(officer.get("/incident.csv?about=" + about + "&name=" + name + PERIOD))))
                .stream()
                .filter(line -> line.get("record").equals(record.toString()))
                .map(line -> line.get("decides"))
                .findFirst()
                .orElse("not in the file");
    }

    /** In the yard from 10 to 20 February, and by a claim that was taken back in the shed. */
    @Test
    void aPlaceHoldsWhatWasThereInThePeriod() {
        at("Yard", "2026-02-10T09:00:00Z");
        at("Barn", "2026-02-20T09:00:00Z");
        RecordId slip = at("Shed", "2026-02-25T09:00:00Z");
        laid.in(() -> transaction.execute(status -> ledger.withdraw(
                laid.author(),
                Draft.of(atStore("Shed"), laid.hood(), Instant.parse("2026-02-25T09:00:00Z"))
                        .correcting(slip, "another set"))));
        assertThat(place("Yard", "2026-02-01", "2026-02-09")).doesNotContain(">H-1<");
        assertThat(place("Yard", "2026-02-12", "2026-02-13"))
                .as("what happened to it there, nothing of elsewhere")
                .doesNotContain("LOT-77");
        assertThat(place("Yard", "2026-02-10", "2026-02-11")).contains(">H-1<");
        assertThat(place("Yard", "2026-02-21", "2026-02-22")).doesNotContain(">H-1<");
        assertThat(place("Barn", "2026-02-20", "2026-02-26")).contains(">H-1<");
        assertThat(place("Shed", "2026-02-20", "2026-02-28"))
                .contains("Nothing on this site is called")
                .doesNotContain(">H-1<");
    }

    private RecordId at(String store, String from) {
        return tell(Draft.of(atStore(store), laid.hood(), Instant.parse(from)));
    }

    private SetData atStore(String store) {
        return new SetData(laid.hoodModel(), "M", "R1", null, false, store, null);
    }

    private String place(String name, String from, String until) {
        return text(officer.get("/incident?about=PLACE&name=" + name + "&from=" + from + "&until=" + until));
    }

    @Test
    void aNameThatIsNotKnownIsSaidBack() {
        assertThat(text(officer.get("/incident?about=WORKER&name=W-999" + PERIOD)))
                .contains("Nothing on this site is called “W-999”");
    }
}
