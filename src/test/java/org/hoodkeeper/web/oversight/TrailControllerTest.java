package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.hoodkeeper.access.AuditChain;
import org.hoodkeeper.access.SignIn;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.ledger.Sealer;
import org.hoodkeeper.oversight.TrailSort;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockMvcRequestBuilders;
import org.springframework.transaction.support.TransactionTemplate;

/** Who did what: everything is in the trail, and the officer finds it. */
@RecordingPage
class TrailControllerTest {

    @Autowired
    Desk desk;

    @Autowired
    TestPeople people;

    @Autowired
    SignIn signIn;

    @Autowired
    Ledger ledger;

    @Autowired
    Sealer sealer;

    @Autowired
    AuditChain chain;

    @Autowired
    JdbcTemplate jdbc;

    @Autowired
    MockMvc mvc;

    @Autowired
    TransactionTemplate transaction;

    private Desk.Seat officer;

    @BeforeEach
    void anOfficerAtAnInventedSite() {
        officer = desk.sit(Role.OFFICER);
    }

    private RecordId told(Draft draft) {
        return officer.laid.in(() -> transaction.execute(status -> ledger.append(officer.laid.author(), draft)));
    }

    private RecordId training() {
        return told(Draft.of(
                        new Training(Outcome.PASS, true, "2", false, "Cy Invented"),
                        officer.laid.worker(),
                        Instant.parse("2026-02-03T09:00:00Z"))
                .scope("HOOD-A"));
    }

    /** Kinds of what was noted at the site, oldest first, one of each. */
    private Set<String> noted() {
        return officer.laid.in(() -> transaction.execute(status -> new TreeSet<>(jdbc.queryForList(
                "select kind || ' ' || coalesce(detail, '') from audit_event where site_id = ?",
                String.class,
                officer.laid.site().id().value()))));
    }

    private long seen(String page) {
        return officer.laid.in(() -> transaction.execute(status -> jdbc.queryForObject(
                "select count(*) from audit_event where site_id = ? and kind = 'person.seen' and detail = ?"
                        + " and subject = ?",
                Long.class,
                officer.laid.site().id().value(),
                page,
                officer.laid.worker().value())));
    }

    @Test
    void everyRecordIsALineWithItsPlaceInTheChain() {
        RecordId training = training();
        assertThat(text(officer.get("/trail?text=training"))).contains("Records, sealed in a moment");
        officer.laid.run(() -> {
            while (sealer.seal(officer.laid.site().id()) > 0) {
                // until nothing is left
            }
        });
        String page = text(officer.get("/trail?sort=WRITE&about=Ada"));
        assertThat(page)
                .contains("One thing was done.", "Recorded: training", "/records/" + training, "Ada Invented")
                .containsPattern("Records, entry [0-9]+");
        assertThat(text(officer.get("/trail?sort=WRITE&about=Bo"))).contains("Nothing of this was done.");
        assertThat(text(officer.get("/trail?sort=WRITE&about=nobody+of+that+name")))
                .contains("Nothing fits.");
        assertThat(text(officer.get("/trail?about=" + officer.laid.worker() + "&lang=es")))
                .contains("Se hizo una cosa.", "Registró:");
    }

    @Test
    void signInsOfTheSitesPeopleAreFoundAndThoseOfOthersAreNot() {
        TestPeople.Person here = people.person(officer.laid.site(), Role.SUPERVISOR);
        TestPeople.Person elsewhere = people.person(people.site(), Role.OFFICER);
        signIn.attempt(here.login(), TestPeople.PASSWORD, new SignIn.Place("192.0.2.7", null));
        assertThatThrownBy(() -> signIn.attempt(here.login(), "wrong words here", new SignIn.Place("192.0.2.8", null)))
                .isInstanceOf(BadCredentialsException.class);
        signIn.attempt(elsewhere.login(), TestPeople.PASSWORD, new SignIn.Place("192.0.2.9", null));
        String page = text(officer.get("/trail?sort=SIGN_IN&who=" + here.login()));
        assertThat(page)
                .contains("2 things were done.", "Signed in", "192.0.2.7", "Sign-in refused", "192.0.2.8", here.name());
        assertThat(text(officer.get("/trail?sort=REFUSED&who=" + here.login())))
                .contains("One thing was done.", "192.0.2.8");
        assertThat(text(officer.get("/trail?sort=SIGN_IN&text=192.0.2.9"))).contains("Nothing of this was done.");
        while (chain.seal(null) > 0) {
            // until nothing is left
        }
        assertThat(text(officer.get("/trail?sort=SIGN_IN&text=192.0.2.7"))).containsPattern("trail, seal [0-9]+");
    }

    @Test
    void whatIsRefusedIsNotedWithThePageAndWhomItConcerns() throws Exception {
        Desk.Seat supervisor = desk.sit(officer.laid, Role.SUPERVISOR);
        assertThat(status(supervisor.get("/trail"))).isEqualTo(403);
        assertThat(status(supervisor.get("/records/" + UUID.randomUUID()))).isEqualTo(404);
        supervisor.refuses("/workers/W-1/suspension", "reason", "");
        assertThat(status(officer.post("/files/holds", Map.of()))).isEqualTo(200);
        assertThat(noted())
                .contains(
                        "access.refused GET /sites/{site}/trail",
                        "address.refused GET /sites/{site}/records/{record}",
                        "form.refused POST /sites/{site}/workers/{number}/suspension",
                        "form.refused POST /sites/{site}/files/{kind}");
        assertThat(text(officer.get("/trail?sort=REFUSED&about=W-1")))
                .contains("One thing was done.", "Form or file not taken", "suspension", "Ada Invented");
        mvc.perform(MockMvcRequestBuilders.post("/sign-out").with(csrf().useInvalidToken()))
                .andReturn();
    }

    @Test
    void everyFileTakenOutIsNotedAndSoIsTheTrailItself() {
        assertThat(status(officer.get("/files/holds.csv"))).isEqualTo(200);
        assertThat(status(officer.get("/labels/sheet?what=SETS&sheet=A4_70_37&first=1")))
                .isEqualTo(200);
        String question = "?about=worker&name=W-1&from=2026-01-01&until=2026-03-01";
        assertThat(status(officer.get("/incident.pdf" + question))).isEqualTo(200);
        assertThat(status(officer.get("/incident.csv" + question))).isEqualTo(200);
        String csv = text(officer.get("/trail.csv?sort=EXPORT"));
        assertThat(csv.lines().findFirst()).contains("at,who,sign_in,kind,what,about,detail,source,chain,position,id");
        assertThat(csv)
                .contains(",file.taken,", ",labels.printed,", ",incident.exported,")
                .contains(",trail.exported,");
        assertThat(csv.lines()).hasSize(6);
        assertThat(csv.lines().filter(line -> line.contains(",incident.exported,")))
                .as("the number of a person cannot be erased from the trail")
                .hasSize(2)
                .allSatisfy(line -> assertThat(line).contains("Ada Invented").doesNotContain("W-1"));
        assertThat(text(officer.get("/trail.csv?text=told%20to%20nobody")).lines())
                .hasSize(1);
    }

    @Test
    void everyLookAtSomebodyElsesRecordsIsNotedAndNoLookAtOnesOwn() {
        RecordId training = training();
        Instant from = Instant.now().minus(Duration.ofHours(30));
        RecordId wear = told(Draft.of(new Wear(officer.laid.task(), Wear.Step.WHOLE), officer.laid.worker(), from)
                .item(officer.laid.hood())
                .until(from.plus(Duration.ofHours(2))));
        for (String page : List.of("/workers/W-1", "/records/" + training, "/records", "/findings")) {
            long before = seen(page.split("/")[1]);
            assertThat(status(officer.get(page))).as(page).isEqualTo(200);
            assertThat(seen(page.split("/")[1])).as(page).isEqualTo(before + 1);
        }
        RecordId hold = told(Draft.of(
                new LegalHold(LegalHold.Step.PLACED, "a claim"),
                officer.laid.worker(),
                Instant.parse("2026-02-03T09:00:00Z")));
        for (String page : List.of("/records/" + hold, "/records?kind=LEGAL_HOLD&from=2026-02-01")) {
            long before = seen("records");
            assertThat(status(officer.get(page))).as(page).isEqualTo(200);
            assertThat(seen("records")).as(page).isEqualTo(before + 1);
        }
        for (String page : List.of("/records/" + training + "/correction", "/records/" + training + "/withdrawal")) {
            long before = seen("records");
            assertThat(status(officer.get(page))).as(page).isEqualTo(200);
            assertThat(seen("records")).as(page).isEqualTo(before + 1);
        }
        long findings = seen("findings");
        assertThat(status(officer.get("/findings/" + wear + "/protection-gap"))).isEqualTo(200);
        assertThat(seen("findings")).isEqualTo(findings + 1);
        String question = "?about=worker&name=W-1&from=2026-01-01&until="
                + Instant.now().toString().substring(0, 10);
        for (String page : List.of("/incident", "/incident.pdf", "/incident.csv")) {
            long before = seen("incident");
            assertThat(status(officer.get(page + question))).as(page).isEqualTo(200);
            assertThat(seen("incident")).as(page).isEqualTo(before + 1);
        }
        Desk.Seat worker = desk.sit(officer.laid, Role.WORKER);
        var report = worker.records("/workers/W-1/symptoms", "note", "short of breath");
        Desk.Seat health = desk.sit(officer.laid, Role.HEALTH);
        health.get("/outcomes");
        assertThat(seen("outcomes")).isEqualTo(1);
        health.get("/symptoms/" + report.told().id() + "/review");
        assertThat(seen("symptoms")).isEqualTo(1);
        health.records("/symptoms/" + report.told().id() + "/review", "note", "seen");
        assertThat(seen("told")).as("what the health role has just told").isEqualTo(1);
        ask(officer);
        assertThat(seen("ask")).isEqualTo(1);
        Set<String> before = noted();
        long lines = lines();
        worker.get("/workers/W-1");
        worker.get("/records/" + training);
        worker.get("/told/" + report.told().id());
        ask(worker);
        assertThat(noted()).isEqualTo(before);
        assertThat(lines()).isEqualTo(lines);
    }

    private void ask(Desk.Seat seat) {
        assertThat(status(
                        seat.api("/ask?worker=W-1&task=BLAST&set=H-1&from=2026-06-01T08:00Z&until=2026-06-01T09:00Z")))
                .isEqualTo(200);
    }

    private Long lines() {
        return officer.laid.in(() -> transaction.execute(status -> jdbc.queryForObject(
                "select count(*) from audit_event where site_id = ?",
                Long.class,
                officer.laid.site().id().value())));
    }

    @Test
    void anAdministratorSeesSignInsAndAccountsAlone() {
        training();
        officer.get("/workers/W-1");
        Desk.Seat administrator = desk.sit(officer.laid, Role.ADMINISTRATOR);
        TestPeople.Person here = people.person(officer.laid.site(), Role.SUPERVISOR);
        signIn.attempt(here.login(), TestPeople.PASSWORD, new SignIn.Place("192.0.2.17", null));
        for (String path : List.of(
                "/trail", "/trail?sort=WRITE", "/trail?sort=SEEN&about=Ada", "/trail.csv", "/trail?text=training")) {
            assertThat(text(administrator.get(path)))
                    .as(path)
                    .doesNotContain("Recorded: ", "person.seen", "Ada Invented", "record.told");
        }
        assertThat(text(administrator.get("/trail?text=192.0.2.17"))).contains("Signed in", here.login());
    }

    @Test
    void fiftyLinesStandOnAPageAndTheRestIsCounted() {
        officer.laid.run(() -> transaction.executeWithoutResult(status -> {
            for (int i = 0; i < 60; i++) {
                ledger.append(
                        officer.laid.author(),
                        Draft.of(
                                        new Training(Outcome.PASS, true, "2", false, "Cy Invented"),
                                        officer.laid.other(),
                                        Instant.parse("2026-02-03T09:00:00Z").plusSeconds(i))
                                .scope("HOOD-A"));
            }
        }));
        String first = text(officer.get("/trail?sort=WRITE&about=W-2"));
        assertThat(first).contains("60 things were done.", "Shown: 50 of 60", "page=2");
        assertThat(first.split("Recorded: training", -1)).hasSize(51);
        String second = text(officer.get("/trail?sort=WRITE&about=W-2&page=2"));
        assertThat(second.split("Recorded: training", -1)).hasSize(11);
        assertThat(second).doesNotContain("page=3");
        assertThat(text(officer.get("/trail?from=yesterday"))).contains("“yesterday” is no day");
        assertThat(status(officer.get("/trail?sort=NONSENSE&page=0&about=%25&text=_%5C")))
                .isEqualTo(200);
        assertThat(text(officer.get("/trail?until=2020-01-01&from=2019-01-01"))).contains("Nothing fits.");
    }

    /** A new kind of event is named here before it can be written: nothing is in the trail that the officer cannot ask for. */
    @Test
    void everyKindOfEventThatIsWrittenHasASortAndWords() throws IOException {
        Set<String> written = new TreeSet<>();
        try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
            files.filter(file -> file.toString().endsWith(".java")).forEach(file -> {
                try {
                    Pattern.compile(
                                    "AuditEntry\\.of\\(\\s*\"([^\"]+)\"|entry\\(\"(request\\.[a-z]+)\"|\"([a-z]+\\.refused)\"")
                            .matcher(Files.readString(file))
                            .results()
                            .forEach(found -> Stream.of(found.group(1), found.group(2), found.group(3))
                                    .filter(java.util.Objects::nonNull)
                                    .forEach(written::add));
                } catch (IOException unreadable) {
                    throw new UncheckedIOException(unreadable);
                }
            });
        }
        assertThat(written).hasSizeGreaterThan(25);
        assertThat(TrailSort.allKinds()).containsAll(written);
        Properties words = new Properties();
        try (var in = Files.newBufferedReader(Path.of("src/main/resources/messages/trail.properties"))) {
            words.load(in);
        }
        assertThat(TrailSort.allKinds()).allSatisfy(kind -> assertThat(words).containsKey("trail.kind." + kind));
    }
}
