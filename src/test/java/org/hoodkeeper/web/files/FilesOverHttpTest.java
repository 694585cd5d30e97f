package org.hoodkeeper.web.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.exchange.FileKind;
import org.hoodkeeper.exchange.WholeSite;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.TestPropertySource;

/** Files as people and commands send and take them. */
@OverHttp
@TestPropertySource(properties = "hoodkeeper.import.megabytes=1")
class FilesOverHttpTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    private Site site;

    @BeforeEach
    void aSite() {
        site = people.site();
    }

    @Test
    void aPersonSendsAFileReadsTheReportAndSaysThatItShallBeRecorded() {
        Browser officer = signedIn(Role.OFFICER);
        assertThat(officer.get(path("/files")).body()).contains("Workers").doesNotContain("Medical outcomes");
        assertThat(officer.get(path("/files/workers")).body()).contains("The worker’s number on the site");
        HttpResponse<String> sent = upload(officer, "workers", "number,name\nW-1,Ada Invented\n");
        assertThat(sent.statusCode()).isEqualTo(302);
        String report = over(officer, Browser.target(sent));
        assertThat(report).contains("Every row is right. New: 1; already on record: 0.");
        assertThat(officer.get(path("/files/workers.csv")).body()).isEqualTo("number,name,employer\r\n");
        HttpResponse<String> recorded = officer.post(Browser.target(sent) + "/record");
        assertThat(recorded.statusCode()).isEqualTo(302);
        assertThat(over(officer, Browser.target(recorded))).contains("Rows recorded: 1; already on record: 0.");
        assertThat(officer.get(path("/files/workers.csv")).body())
                .isEqualTo("number,name,employer\r\nW-1,Ada Invented,\r\n");
    }

    @Test
    void theReportNamesRowColumnValueAndWhy() {
        Browser officer = signedIn(Role.OFFICER);
        HttpResponse<String> sent = upload(officer, "workers", "number,name\nW 1,Ada Invented\n");
        String report = over(officer, Browser.target(sent));
        assertThat(report)
                .contains("Nothing is recorded. Rows that cannot be recorded: 1 of 1.")
                .contains(">number<", ">W 1<")
                .contains("is no code: 1 to 30 letters")
                .doesNotContain("Record what is new");
        assertThat(officer.get(Browser.target(sent) + "?lang=es").body()).contains("No se registra nada.");
    }

    @Test
    void anEmptyOrTooLargeFileIsRefusedOnTheSamePage() {
        Browser officer = signedIn(Role.OFFICER);
        HttpResponse<String> none = upload(officer, "workers", "");
        assertThat(none.statusCode()).isEqualTo(200);
        assertThat(none.body()).contains("No file was chosen, or it is empty.");
        // just above the limit of a megabyte, yet within what a form may add around its file
        HttpResponse<String> large = upload(officer, "workers", "number,name\n" + "x".repeat(1024 * 1024));
        assertThat(large.statusCode()).isEqualTo(413);
        assertThat(large.body()).contains("The file is larger than 1 MB.");
        HttpResponse<String> huge = upload(officer, "workers", "x".repeat(1200 * 1024));
        assertThat(huge.statusCode()).isEqualTo(413);
    }

    @Test
    void theWallStandsOverHttpToo() {
        Browser officer = signedIn(Role.OFFICER, Role.STOREKEEPER, Role.ADMINISTRATOR);
        assertThat(officer.get(path("/files/medical-outcomes")).statusCode()).isEqualTo(404);
        assertThat(officer.get(path("/files/medical-outcomes.csv")).statusCode())
                .isEqualTo(404);
        Browser health = signedIn(Role.HEALTH);
        HttpResponse<String> sent = upload(health, "medical-outcomes", "source_id\nM-1\n");
        assertThat(over(health, Browser.target(sent))).contains("The column worker is missing.");
        assertThat(officer.get(Browser.target(sent)).statusCode()).isEqualTo(404);
        assertThat(signedIn(Role.WORKER).get(path("/files")).statusCode()).isEqualTo(403);
        assertThat(health.get(path("/files/workers")).statusCode()).isEqualTo(404);
    }

    @Test
    void aCommandSendsAFileAndTakesItOut() {
        TestPeople.Person officer = people.person(site, Role.OFFICER);
        HttpResponse<String> refused =
                command(officer, "POST", "/import/workers?dryRun=false", "number,name\nW 1,Ada\n");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body())
                .contains(
                        "\"state\":\"REFUSED\"", "\"row\":2", "\"column\":\"number\"", "\"value\":\"W 1\"", "\"why\":");
        HttpResponse<String> look = command(officer, "POST", "/import/workers?dryRun=true", "number,name\nW-1,Ada\n");
        assertThat(look.body()).contains("\"state\":\"READY\"", "\"recorded\":0");
        HttpResponse<String> done = command(officer, "POST", "/import/workers?dryRun=false", "number,name\nW-1,Ada\n");
        assertThat(done.statusCode()).isEqualTo(200);
        assertThat(done.body()).contains("\"state\":\"RECORDED\"", "\"recorded\":1", "\"already\":0", "\"refused\":[]");
        assertThat(command(officer, "GET", "/export/workers.csv", "").body())
                .isEqualTo("number,name,employer\r\nW-1,Ada,\r\n");
        assertThat(command(officer, "GET", "/export/medical-outcomes.csv", "").statusCode())
                .isEqualTo(422);
        assertThat(command(officer, "POST", "/import/no-such-kind", "x\n").statusCode())
                .isEqualTo(404);
        assertThat(command(officer, "POST", "/import/workers", "x".repeat(1024 * 1024 + 100))
                        .statusCode())
                .isEqualTo(413);
    }

    @Test
    void theCommandLeavesWithWhatCameOfIt(@TempDir Path folder) throws Exception {
        TestPeople.Person officer = people.person(site, Role.OFFICER);
        Path good = Files.writeString(folder.resolve("good.csv"), "number,name\nW-1,Ada\n");
        Path bad = Files.writeString(folder.resolve("bad.csv"), "number,name\nW 2,Bo\n");
        assertThat(run(officer, "workers", good.toString(), "--dry-run"))
                .isEqualTo("0 Every row is right. New: 1; already on record: 0. Nothing is recorded yet.\n");
        assertThat(run(officer, "workers", good.toString())).isEqualTo("0 Rows recorded: 1; already on record: 0.\n");
        assertThat(run(officer, "workers", good.toString())).isEqualTo("0 Rows recorded: 0; already on record: 1.\n");
        assertThat(run(officer, "workers", bad.toString()))
                .startsWith("3 Nothing is recorded.")
                .contains("Row 2, column number, “W 2”: ");
        assertThat(run(officer, "no-such-kind", good.toString())).startsWith("2 ");
        assertThat(run(officer, "workers", folder.resolve("none.csv").toString()))
                .startsWith("2 ");
    }

    @Test
    void theReportLeadsToTheSetsThatTheFileHeld() {
        TestPeople.Person person = people.person(site, Role.OFFICER);
        for (FileKind kind : List.of(FileKind.WORKERS, FileKind.MODELS, FileKind.SETS)) {
            assertThat(command(person, "POST", "/import/" + kind.slug(), WholeSite.FILES.get(kind))
                            .body())
                    .contains("\"state\":\"RECORDED\"", "\"held\":[]");
        }
        HttpResponse<String> told = command(person, "POST", "/import/custody", """
                source_id,set,at,claim,worker
                C-8,M-1,2025-09-01T07:00+01:00,issued,W-1
                C-9,M-1,2025-09-02T07:00+01:00,issued,W-2
                C-7,H-1,2025-09-02T07:00+01:00,issued,W-2
                """);
        assertThat(told.body()).contains("\"recorded\":3", "\"disputed\":1", "\"held\":[\"M-1\"]");
        String job = told.headers().firstValue("Location").orElseThrow().replaceFirst(".*/", "");
        Browser officer = new Browser(port);
        officer.signIn(person.login(), TestPeople.PASSWORD);
        assertThat(officer.get(path("/files/imports/" + job)).body())
                .contains("Put on hold by this file", "href=\"" + path("/sets/M-1") + "\"")
                .doesNotContain("/sets/H-1");
    }

    private String run(TestPeople.Person person, String... arguments) throws IOException, InterruptedException {
        ProcessBuilder command = new ProcessBuilder("ops/import", "--site", site.code());
        command.command().addAll(List.of(arguments));
        command.environment().put("HOODKEEPER_URL", "http://localhost:" + port);
        command.environment().put("HOODKEEPER_SIGN_IN", person.login() + ":" + TestPeople.PASSWORD);
        command.environment().put("LC_ALL", "en_GB.UTF-8");
        command.redirectError(ProcessBuilder.Redirect.DISCARD);
        Process process = command.start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        return process.waitFor() + " " + said;
    }

    private HttpResponse<String> command(TestPeople.Person person, String method, String path, String body) {
        String who = Base64.getEncoder()
                .encodeToString((person.login() + ":" + TestPeople.PASSWORD).getBytes(StandardCharsets.UTF_8));
        Browser plain = new Browser(port);
        return plain.send(plain.request("/api/sites/" + site.code() + path)
                .header("Authorization", "Basic " + who)
                .header("Content-Type", "text/csv")
                .method(method, HttpRequest.BodyPublishers.ofString(body))
                .build());
    }

    private Browser signedIn(Role... roles) {
        Browser browser = new Browser(port);
        TestPeople.Person person = people.person(site, roles);
        browser.signIn(person.login(), TestPeople.PASSWORD);
        return browser;
    }

    private String path(String rest) {
        return "/sites/" + site.code() + rest;
    }

    private HttpResponse<String> upload(Browser browser, String kind, String content) {
        String page = browser.get(path("/files/" + kind)).body();
        String token = page.replaceFirst("(?s).*enctype.*?name=\"_csrf\"[^>]*value=\"([^\"]+)\".*", "$1");
        String body = "--xyz\r\nContent-Disposition: form-data; name=\"_csrf\"\r\n\r\n" + token
                + "\r\n--xyz\r\nContent-Disposition: form-data; name=\"file\"; filename=\"" + kind
                + ".csv\"\r\nContent-Type: text/csv\r\n\r\n" + content + "\r\n--xyz--\r\n";
        return browser.send(browser.request(path("/files/" + kind))
                .header("Content-Type", "multipart/form-data; boundary=xyz")
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build());
    }

    /** The report, asked for again until it is over, as a person follows the link. */
    private static String over(Browser browser, String path) {
        for (int tries = 0; tries < 100; tries++) {
            String page = browser.get(path).body();
            if (!page.contains("Look again") && !page.contains("Mirar otra vez")) {
                return page;
            }
            try {
                Thread.sleep(100);
            } catch (InterruptedException stopped) {
                throw new IllegalStateException(stopped);
            }
        }
        throw new AssertionError("not over: " + path);
    }
}
