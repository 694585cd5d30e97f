package org.hoodkeeper.access;

import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** What a person's browser does over real HTTP: keeps cookies, sends the form's hidden token, follows no redirect. */
public class Browser {

    private static final HttpClient CLIENT =
            HttpClient.newBuilder().followRedirects(HttpClient.Redirect.NEVER).build();
    private static final Pattern TOKEN = Pattern.compile("name=\"_csrf\"[^>]*value=\"([^\"]+)\"");

    private final String base;
    private final Map<String, String> cookies = new LinkedHashMap<>();
    private String token = "";

    public Browser(int port) {
        this.base = "http://localhost:" + port;
    }

    public HttpResponse<String> get(String path) {
        return send(request(path).GET().build());
    }

    public HttpResponse<String> post(String path, String... namesAndValues) {
        List<String> fields = new ArrayList<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            fields.add(encode(namesAndValues[i]) + "=" + encode(namesAndValues[i + 1]));
        }
        if (!token.isEmpty()) {
            fields.add("_csrf=" + encode(token));
        }
        String body = String.join("&", fields);
        return send(request(path)
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build());
    }

    public HttpResponse<String> signIn(String login, String password) {
        get("/sign-in");
        return post("/sign-in", "login", login, "password", password);
    }

    /** The path of a redirect; empty when the answer is none. */
    public static String target(HttpResponse<String> answer) {
        return answer.headers()
                .firstValue("Location")
                .map(location -> location.replaceFirst("^https?://[^/]+", ""))
                .orElse("");
    }

    public Map<String, String> cookies() {
        return cookies;
    }

    public void forgetToken() {
        token = "";
    }

    public HttpRequest.Builder request(String path) {
        HttpRequest.Builder builder = HttpRequest.newBuilder(URI.create(base + path));
        if (!cookies.isEmpty()) {
            builder.header(
                    "Cookie",
                    cookies.entrySet().stream()
                            .map(cookie -> cookie.getKey() + "=" + cookie.getValue())
                            .collect(Collectors.joining("; ")));
        }
        return builder;
    }

    public HttpResponse<String> send(HttpRequest request) {
        try {
            HttpResponse<String> answer = CLIENT.send(request, HttpResponse.BodyHandlers.ofString());
            answer.headers().allValues("Set-Cookie").forEach(this::keep);
            Matcher found = TOKEN.matcher(answer.body());
            if (found.find()) {
                token = found.group(1);
            }
            return answer;
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private void keep(String header) {
        String[] pair = header.split(";", 2)[0].split("=", 2);
        if (header.contains("Max-Age=0")) {
            cookies.remove(pair[0]);
        } else {
            cookies.put(pair[0], pair[1]);
        }
    }

    private static String encode(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }
}
