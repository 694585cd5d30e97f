package org.hoodkeeper.bench;

import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Somebody signed in, with a cookie jar of their own and a kept connection. */
final class Guest {

    private static final Pattern CSRF = Pattern.compile("name=\"_csrf\"[^>]*value=\"([^\"]+)\"");

    private final HttpClient client = HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .cookieHandler(new CookieManager())
            .connectTimeout(Duration.ofSeconds(5))
            .build();
    private final String base;

    private Guest(String base) {
        this.base = base;
    }

    static Guest signIn(String base, String login) throws IOException, InterruptedException {
        Guest guest = new Guest(base);
        String token = guest.token("/sign-in");
        HttpResponse<String> answer = guest.post(
                "/sign-in", "_csrf", token, "login", login, "password", Generator.PASSWORD);
        if (answer.statusCode() != 302 || String.valueOf(answer.headers().firstValue("Location").orElse(""))
                .contains("sign-in")) {
            throw new IllegalStateException(login + " could not sign in: " + answer.statusCode() + answer.headers());
        }
        return guest;
    }

    private String token(String path) throws IOException, InterruptedException {
        Matcher found = CSRF.matcher(get(path, "text/html").body());
        if (!found.find()) {
            throw new IllegalStateException("no form at " + path);
        }
        return found.group(1);
    }

    HttpResponse<String> get(String path, String accept) throws IOException, InterruptedException {
        return client.send(
                HttpRequest.newBuilder(URI.create(base + path))
                        .header("Accept", accept)
                        .timeout(Duration.ofSeconds(60))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    HttpResponse<String> post(String path, String... fields) throws IOException, InterruptedException {
        StringBuilder form = new StringBuilder();
        for (int i = 0; i < fields.length; i += 2) {
            form.append(i == 0 ? "" : "&")
                    .append(fields[i])
                    .append('=')
                    .append(URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return client.send(
                HttpRequest.newBuilder(URI.create(base + path))
                        .header("Content-Type", "application/x-www-form-urlencoded")
                        .timeout(Duration.ofSeconds(60))
                        .POST(HttpRequest.BodyPublishers.ofString(form.toString()))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }
}
