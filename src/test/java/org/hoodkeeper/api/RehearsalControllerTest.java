package org.hoodkeeper.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.Base64;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.kernel.Role;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.context.SpringBootTest.WebEnvironment;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** A rehearsal's clock moved over real HTTP, by hand and by {@code ops/clock}. */
@SpringBootTest(webEnvironment = WebEnvironment.RANDOM_PORT, properties = "hoodkeeper.clock=2027-03-01T06:30:00Z")
@Import(TestPeople.class)
class RehearsalControllerTest {

    @Autowired
    TestPeople people;

    @Autowired
    Clock clock;

    @LocalServerPort
    int port;

    Person officer;

    @BeforeEach
    void sixThirtyOnTheFirstOfMarch() {
        TestClock.set(Instant.parse("2027-03-01T06:30:00Z"));
        officer = people.person(people.site(), Role.OFFICER);
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    @Test
    void anOfficerMovesItForward() throws Exception {
        HttpResponse<String> answer = move(officer, "{\"instant\": \"2027-03-01T14:00:00Z\"}");
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        assertThat(answer.body()).startsWith("{\"serviceTime\":\"2027-03-01T14:00:");
        assertThat(clock.instant()).isBetween("2027-03-01T14:00:00Z", "2027-03-01T14:00:20Z");
    }

    @Test
    void neverBack() throws Exception {
        HttpResponse<String> answer = move(officer, "{\"instant\": \"2027-03-01T06:29:59Z\"}");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("\"code\":\"rehearsal.back\"").contains("only moves forward");
        assertThat(clock.instant()).isBetween("2027-03-01T06:30:00Z", "2027-03-01T06:30:30Z");
    }

    @Test
    void aTimeThatCannotBeReadIsNamed() throws Exception {
        HttpResponse<String> unreadable = move(officer, "{\"instant\": \"1 March\"}");
        assertThat(unreadable.statusCode()).isEqualTo(422);
        assertThat(unreadable.body())
                .contains("\"code\":\"rehearsal.instant.unreadable\"")
                .contains("1 March");
        assertThat(move(officer, "{}").statusCode()).isEqualTo(422);
        assertThat(move(officer, "not JSON").statusCode()).isEqualTo(400);
        assertThat(move(officer, "").statusCode()).isEqualTo(400);
    }

    @Test
    void nobodyElseMovesIt() throws Exception {
        Person worker = people.person(people.site(), Role.WORKER);
        assertThat(move(worker, "{\"instant\": \"2027-03-01T14:00:00Z\"}").statusCode())
                .isEqualTo(403);
        assertThat(clock.instant()).isBefore("2027-03-01T06:31:00Z");
    }

    @Test
    void theCommandMovesItAndLeavesWithWhatHappened() throws Exception {
        assumeTrue(runs("curl", "--version"), "ops/clock needs curl, which is not on this machine");
        assertThat(command("2027-03-01T14:00:00Z", officer.login() + ":" + TestPeople.PASSWORD))
                .isZero();
        assertThat(clock.instant()).isBetween("2027-03-01T14:00:00Z", "2027-03-01T14:00:30Z");
        assertThat(command("2027-03-01T13:00:00Z", officer.login() + ":" + TestPeople.PASSWORD))
                .isEqualTo(2);
        assertThat(command("2027-03-01T15:00:00Z", officer.login() + ":guessed \"wrong\""))
                .isEqualTo(1);
    }

    private HttpResponse<String> move(Person who, String body) throws IOException, InterruptedException {
        String signIn = who.login() + ":" + TestPeople.PASSWORD;
        HttpRequest request = HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/api/rehearsal/clock"))
                .header("Content-Type", "application/json")
                .header("Accept-Language", "en")
                .header(
                        "Authorization",
                        "Basic " + Base64.getEncoder().encodeToString(signIn.getBytes(StandardCharsets.UTF_8)))
                .POST(BodyPublishers.ofString(body))
                .build();
        return HttpClient.newHttpClient().send(request, BodyHandlers.ofString());
    }

    private int command(String instant, String signIn) throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder(Path.of("ops", "clock").toString(), instant).inheritIO();
        builder.environment().put("HOODKEEPER_URL", "http://127.0.0.1:" + port);
        builder.environment().put("HOODKEEPER_SIGN_IN", signIn);
        return builder.start().waitFor();
    }

    private static boolean runs(String... command) throws InterruptedException {
        try {
            return new ProcessBuilder(command).redirectErrorStream(true).start().waitFor() == 0;
        } catch (IOException e) {
            return false;
        }
    }
}
