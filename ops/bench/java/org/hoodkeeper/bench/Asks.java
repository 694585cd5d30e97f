package org.hoodkeeper.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.time.Instant;

/** The question over HTTP, by a command's token: may this worker do their task with their set, for the next hours? */
final class Asks {

    private final HttpClient client =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    private final String base;
    private final String site;
    private final Instant from;

    Asks(String base, String site, Instant from) {
        this.base = base;
        this.site = site;
        this.from = from;
    }

    /** @return the answer as JSON */
    String ask(Pair pair) throws IOException, InterruptedException {
        String path = "/api/sites/" + site + "/ask?worker=" + Generator.number(pair.index) + "&task="
                + Generator.taskCode(pair.taskNumber()) + "&set=" + Generator.label(pair.index) + "&from=" + from
                + "&until=" + from.plus(Duration.ofHours(4));
        HttpResponse<String> answer = client.send(
                HttpRequest.newBuilder(URI.create(base + path))
                        .header("Accept", "application/json")
                        .header("Authorization", "Bearer " + Generator.token(site))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
        if (answer.statusCode() != 200) {
            throw new IllegalStateException(answer.statusCode() + " " + path + " " + answer.body());
        }
        return answer.body();
    }
}
