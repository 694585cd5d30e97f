package org.hoodkeeper.bench;

import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Somebody signed in, with a cookie jar of their own and a kept connection. */
final class Guest {

    private static final Pattern CSRF = Pattern.compile("name=\"_csrf\"[^>]*value=\"([^\"]+)\"");

    /** One for all: a thousand clients would be a thousand threads. */
    private static final HttpClient CLIENT = HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .connectTimeout(Duration.ofSeconds(5))
            .build();

    private static final Pattern HIDDEN = Pattern.compile("<input type=\"hidden\"[^>]*>");
    private static final Pattern NAME = Pattern.compile(" name=\"([^\"]*)\"");
    private static final Pattern VALUE = Pattern.compile(" value=\"([^\"]*)\"");

    private final Map<String, String> cookies = new ConcurrentHashMap<>();
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
        return send(HttpRequest.newBuilder(URI.create(base + path)).header("Accept", accept));
    }

    HttpResponse<String> post(String path, String... fields) throws IOException, InterruptedException {
        StringBuilder form = new StringBuilder();
        for (int i = 0; i < fields.length; i += 2) {
            form.append(i == 0 ? "" : "&")
                    .append(fields[i])
                    .append('=')
                    .append(URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return send(HttpRequest.newBuilder(URI.create(base + path))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(form.toString())));
    }

    /** Opens a page, fills in its form, and sends it off with everything hidden that the page had put in. */
    HttpResponse<String> fill(String path, String... fields) throws IOException, InterruptedException {
        List<String> all = new ArrayList<>(List.of(fields));
        Matcher hidden = HIDDEN.matcher(get(path, "text/html").body().split("<main", 2)[1]);
        while (hidden.find()) {
            Matcher name = NAME.matcher(hidden.group());
            Matcher value = VALUE.matcher(hidden.group());
            if (name.find() && !all.contains(name.group(1))) {
                all.add(name.group(1));
                all.add(value.find() ? value.group(1) : "");
            }
        }
        return post(path, all.toArray(new String[0]));
    }

    private HttpResponse<String> send(HttpRequest.Builder request) throws IOException, InterruptedException {
        if (!cookies.isEmpty()) {
            request.header(
                    "Cookie",
                    cookies.entrySet().stream()
                            .map(cookie -> cookie.getKey() + "=" + cookie.getValue())
                            .collect(Collectors.joining("; ")));
        }
        HttpResponse<String> answer =
                CLIENT.send(request.timeout(Duration.ofMinutes(10)).build(), HttpResponse.BodyHandlers.ofString());
        for (String set : answer.headers().allValues("Set-Cookie")) {
            String[] cookie = set.split(";", 2)[0].split("=", 2);
            cookies.put(cookie[0], cookie.length > 1 ? cookie[1] : "");
        }
        return answer;
    }
}
