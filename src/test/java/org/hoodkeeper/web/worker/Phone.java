package org.hoodkeeper.web.worker;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** Kay has S-098, a powered hood of model H20, in hand on Friday 20 November 2026 at 15:00 in London, and a phone. */
@OverHttp
@Import(StoreStory.class)
abstract class Phone {

    static final String[] ALL_GOOD = {
        "rightSet", "PASS", "visor", "PASS", "edgeSeal", "PASS", "exhalationValve", "PASS", "harness", "PASS",
        "hose", "PASS", "blower", "PASS", "filter", "PASS", "battery", "PASS", "chargePercent", "100",
        "indicator", "FM-1", "reading", "175", "alarms", "PASS", "placement", "PASS"
    };

    private static final Pattern HIDDEN =
            Pattern.compile("<input type=\"hidden\"[^>]*name=\"([^\"]+)\"[^>]*value=\"([^\"]*)\"");

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @Autowired
    History history;

    Browser kay;
    String at;

    @BeforeEach
    void kayHasASet() {
        story.begin("2026-11-20T15:00")
                .worker("Kay", "H20")
                .worker("Lee", "H20")
                .set("S-098", "H20", "2026-11-02T09:00")
                .set("S-131", "H20", "2026-11-02T09:00")
                .upToDate("S-098", "2026-11-20T13:00")
                .upToDate("S-131", "2026-11-20T13:00");
        story.issue("S-098", "Kay");
        at = "/sites/" + story.site().code();
        kay = phoneOf("Kay");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    WorkerId id(String worker) {
        return story.in(() -> story.people().byNumber(story.site().id(), worker))
                .id();
    }

    Browser phoneOf(String worker) {
        Browser browser = new Browser(port);
        TestPeople.Person person =
                people.person(List.of(RoleGrant.worker(story.site().id(), id(worker))));
        browser.signIn(person.login(), TestPeople.PASSWORD);
        return browser;
    }

    String page(String path) {
        HttpResponse<String> answer = kay.get(at + path);
        assertThat(answer.statusCode()).as(path + "\n" + answer.body()).isEqualTo(200);
        return answer.body();
    }

    static String h1(String page) {
        Matcher found = Pattern.compile("<h1[^>]*>([^<]*)</h1>").matcher(page);
        assertThat(found.find()).as(page).isTrue();
        return found.group(1);
    }

    /** The one thing to do now: the address it leads to. */
    static String now(String page) {
        Matcher found = Pattern.compile("<a class=\"main\" href=\"([^\"]+)\"").matcher(page);
        assertThat(found.find()).as(page).isTrue();
        String href = found.group(1).replace("&amp;", "&");
        assertThat(found.find()).as("one primary button a screen").isFalse();
        return href;
    }

    HttpResponse<String> typed(String path, String... fields) {
        return posted(path, "step", "check", fields);
    }

    HttpResponse<String> posted(String path, String name, String value, String... fields) {
        kay.get(at + "/today");
        String[] all = Arrays.copyOf(fields, fields.length + 4);
        all[fields.length] = name;
        all[fields.length + 1] = value;
        all[fields.length + 2] = "formKey";
        all[fields.length + 3] = UUID.randomUUID().toString();
        return kay.post(at + path, all);
    }

    /** Sends the form of a page as a browser does: every hidden field, and the button's step. */
    HttpResponse<String> send(String path, String page, String... more) {
        Map<String, String> fields = new LinkedHashMap<>();
        Matcher hidden = HIDDEN.matcher(page);
        while (hidden.find()) {
            fields.put(hidden.group(1), hidden.group(2).replace("&quot;", "\"").replace("&amp;", "&"));
        }
        fields.remove("_csrf");
        for (int i = 0; i < more.length; i += 2) {
            fields.put(more[i], more[i + 1]);
        }
        return kay.post(
                at + path,
                fields.entrySet().stream()
                        .flatMap(field -> java.util.stream.Stream.of(field.getKey(), field.getValue()))
                        .toArray(String[]::new));
    }

    /** Answers, looks over, records, and reads the page that follows. */
    String recorded(String path, String... fields) {
        HttpResponse<String> checked = typed(path, fields);
        assertThat(checked.statusCode()).as(checked.body()).isEqualTo(200);
        return follow(send(path, checked.body(), "step", "record"));
    }

    String follow(HttpResponse<String> answer) {
        assertThat(Browser.target(answer)).as(answer.body()).isNotEmpty();
        HttpResponse<String> next = kay.get(Browser.target(answer));
        assertThat(next.statusCode()).as(next.body()).isEqualTo(200);
        return next.body();
    }

    static String[] but(String name, String value, String... fields) {
        String[] changed = fields.clone();
        for (int i = 0; i < changed.length; i += 2) {
            if (changed[i].equals(name)) {
                changed[i + 1] = value;
                return changed;
            }
        }
        throw new IllegalArgumentException(name);
    }

    void goIn() {
        recorded("/today/check/S-098", ALL_GOOD);
        String enter = now(page("/today"));
        follow(send("/today/enter", kay.get(enter).body()));
    }

    long gateAnswers() {
        return story.in(() -> jdbc.queryForObject(
                "select count(*) from stored_answer where site_id = ? and purpose = 'gate'",
                Long.class,
                story.site().id().value()));
    }

    @Autowired
    org.springframework.jdbc.core.JdbcTemplate jdbc;
}
