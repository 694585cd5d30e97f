package org.hoodkeeper.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReferenceArray;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.kernel.SiteId;
import plainpages.PlainPages;

/**
 * The worker's first page: up to a thousand people signed in, one after the other, each of whom must get their own name and
 * verdict back, against a page of the same people with layout and two queries, no sign-in and nothing judged.
 */
final class WorkerPages {

    /** What the public example application's owner page reached with 8 connections on two cores, requests a second. */
    private static final double PUBLIC_EXAMPLE = 354;

    private static final int HANDS = 8;

    private final Service service;
    private final BenchDatabase database;
    private final Path log;
    private final String code;
    private final SiteId site;
    private final List<Pair> people;
    private final HttpClient client =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();

    WorkerPages(Service service, BenchDatabase database, Path log, String code, Generator.Made made) {
        this.service = service;
        this.database = database;
        this.log = log;
        this.code = code;
        this.site = made.site();
        this.people = made.pairs().subList(0, Math.min(1_000, made.pairs().size()));
    }

    void run() throws Exception {
        List<Guest> guests = signedIn();
        int requests = Math.max(400, people.size());
        double[] ours = new double[QuestionGoals.ROUNDS];
        double[] plain = new double[QuestionGoals.ROUNDS];
        try (Service pages = Service.start(program(), arguments(), log)) {
            for (int round = -3; round < ours.length; round++) {
                double full = Load.closed(HANDS, requests, hand -> n -> today(guests, n)).perSecond();
                double bare = Load.closed(HANDS, requests, hand -> n -> plain(pages, n)).perSecond();
                if (round >= 0) {
                    ours[round] = full;
                    plain[round] = bare;
                }
            }
        }
        Goal.atLeast("worker's page, 8 connections, against a plain page", "requests/s", ours, plain, 2);
        Goal.above("worker's page, 8 connections, against the public example", "requests/s", ours, PUBLIC_EXAMPLE);
    }

    private List<Guest> signedIn() throws Exception {
        AtomicReferenceArray<Guest> guests = new AtomicReferenceArray<>(people.size());
        Load.closed(
                4,
                people.size(),
                hand -> n -> guests.set(n, Guest.signIn(service.url(), Generator.login(code, n))));
        List<Guest> all = new ArrayList<>();
        for (int i = 0; i < guests.length(); i++) {
            all.add(guests.get(i));
        }
        return all;
    }

    private void today(List<Guest> guests, int n) throws Exception {
        int who = n % guests.size();
        String body = guests.get(who).get("/sites/" + code + "/today", "text/html").body();
        boolean own = body.contains("Worker " + who) || body.contains(Generator.label(who));
        boolean verdict = body.contains("class=\"answer") || body.contains("class=\"verdict");
        if (!own || !verdict) {
            throw new IllegalStateException("worker " + who + " got another page: " + start(body));
        }
    }

    private static String start(String body) {
        return body.substring(0, Math.min(400, body.length()));
    }

    private void plain(Service pages, int n) throws IOException, InterruptedException {
        int who = n % people.size();
        HttpResponse<String> answer = client.send(
                HttpRequest.newBuilder(URI.create(
                                pages.url() + "/plain/" + site.value() + "/" + Generator.number(who)))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
        if (answer.statusCode() != 200 || !answer.body().contains(Generator.number(who))) {
            throw new IllegalStateException("no plain page: " + start(answer.body()));
        }
    }

    /** The benchmark's own classes: the comparator is not in the jar. */
    private static List<String> program() {
        return List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx512m",
                "-cp",
                System.getProperty("java.class.path"),
                PlainPages.class.getName());
    }

    /** Of the service's database, with the site bound for every connection, and nothing of the service's settings. */
    private List<String> arguments() {
        List<String> arguments = new ArrayList<>();
        for (String argument : database.arguments()) {
            arguments.add(
                    argument.startsWith("--spring.datasource.url=")
                            ? argument + "?options=-c%20hoodkeeper.site=" + site.value()
                            : argument);
        }
        arguments.addAll(List.of(
                "--spring.config.name=plain",
                "--server.address=127.0.0.1",
                "--spring.flyway.enabled=false",
                "--spring.jpa.open-in-view=false",
                "--spring.datasource.hikari.maximum-pool-size=16",
                "--spring.thymeleaf.prefix=file:" + Path.of("ops/bench/templates").toAbsolutePath() + "/",
                "--spring.thymeleaf.cache=true",
                "--management.endpoint.health.probes.enabled=true",
                "--spring.autoconfigure.exclude=" + String.join(",", EXCLUDED)));
        return arguments;
    }

    private static final List<String> EXCLUDED = List.of(
            "org.springframework.boot.security.autoconfigure.SecurityAutoConfiguration",
            "org.springframework.boot.security.autoconfigure.UserDetailsServiceAutoConfiguration",
            "org.springframework.boot.security.autoconfigure.web.servlet.SecurityFilterAutoConfiguration",
            "org.springframework.boot.security.autoconfigure.web.servlet.ServletWebSecurityAutoConfiguration",
            "org.springframework.boot.security.autoconfigure.actuate.web.servlet.ManagementWebSecurityAutoConfiguration",
            "org.springframework.boot.session.autoconfigure.SessionAutoConfiguration",
            "org.springframework.boot.session.jdbc.autoconfigure.JdbcSessionAutoConfiguration");
}
