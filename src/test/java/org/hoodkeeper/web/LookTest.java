package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;

import jakarta.servlet.http.Cookie;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;

@SpringBootTest(classes = LookPages.class, properties = "hoodkeeper.demo=true")
@AutoConfigureMockMvc(addFilters = false)
class LookTest {

    @Autowired
    MockMvc mvc;

    MockHttpServletResponse ask(MockHttpServletRequestBuilder request) throws Exception {
        return mvc.perform(request).andReturn().getResponse();
    }

    String page(MockHttpServletRequestBuilder request) throws Exception {
        MockHttpServletResponse response = ask(request);
        assertThat(response.getStatus()).isEqualTo(200);
        assertThat(response.getContentType()).isEqualTo("text/html;charset=UTF-8");
        return response.getContentAsString();
    }

    static MockHttpServletRequestBuilder filled() {
        return post("/look/form")
                .param("label", " S-098-K ")
                .param("litresPerMinute", "175,5")
                .param("turns", "12")
                .param("on", "2026-11-30")
                .param("at", "2026-11-30T06:00")
                .param("floats", "BELOW")
                .param("remark", "wet <b>")
                .param("seen", "true")
                .param("parts", "NONE")
                .param("oldPassword", " two words ");
    }

    @Test
    void aPageHasItsDoctypeLanguageTitleAndOneHeading() throws Exception {
        String page = page(get("/look/answer"));
        assertThat(page)
                .startsWith("<!doctype html>\n<html lang=\"en\">")
                .contains("<title>Flow check of set S-098 – Hoodkeeper</title>")
                .doesNotContain("??", "th:", "xmlns");
        assertThat(page.split("<h1", -1)).hasSize(2);
        assertThat(page.split("<main", -1)).hasSize(2);
    }

    @Test
    void theLayoutNamesSitePersonCautionAndZone() throws Exception {
        assertThat(page(get("/look/answer")))
                .contains(
                        "<a class=\"skip\" href=\"#main\">Go to the content</a>",
                        "Quarry Bank",
                        "Maren Oduya",
                        "<form class=\"leave\" method=\"post\" action=\"/sign-out\">",
                        "Leave the area when an alarm sounds.",
                        "short of oxygen",
                        "supports, and does not replace, the competent person",
                        "Times are those of Europe/London.",
                        "Demonstration.");
    }

    @Test
    void theNavigationHoldsThePagesOfTheReadersRoles() throws Exception {
        assertThat(page(get("/look/answer")))
                .contains(
                        "<a href=\"/sites/quarry-bank/bench\">Bench</a>",
                        "<a href=\"/sites/quarry-bank/board\">Site board</a>")
                .doesNotContain("/sites/quarry-bank/outcomes", "/sites/quarry-bank/accounts", "aria-current");
    }

    @Test
    void aPageWorksWithNobodySignedIn() throws Exception {
        assertThat(page(get("/look/answer").param("nobody", "")))
                .contains("Leave the area when an alarm sounds.", "Español")
                .doesNotContain("Quarry Bank", "sign-out", "class=\"ways\"", "Times are those of");
    }

    @Test
    void theLanguageIsAskedOfTheBrowserAndTheChoiceIsKept() throws Exception {
        assertThat(page(get("/look/answer").header("Accept-Language", "fr, es-MX;q=0.8, en;q=0.5")))
                .contains("<html lang=\"es\">", "No autorizado", "Salga de la zona")
                .doesNotContain("??");
        assertThat(page(get("/look/answer").header("Accept-Language", "fr"))).contains("<html lang=\"en\">");

        MockHttpServletResponse chosen = ask(get("/look/answer?verdict=NOT_CLEARED&lang=es"));
        Cookie cookie = chosen.getCookie("hoodkeeper-language");
        assertThat(cookie).isNotNull();
        assertThat(cookie.getValue()).isEqualTo("es");
        assertThat(chosen.getContentAsString())
                .contains("<html lang=\"es\">", "href=\"?verdict=NOT_CLEARED&amp;lang=en\"");
        assertThat(page(get("/look/answer").cookie(cookie))).contains("<html lang=\"es\">");
    }

    @Test
    void aLanguageNobodyWroteChangesNothing() throws Exception {
        MockHttpServletResponse response = ask(get("/look/answer").queryParam("lang", "xx<script>"));
        assertThat(response.getStatus()).isEqualTo(200);
        assertThat(response.getCookie("hoodkeeper-language")).isNull();
        assertThat(response.getContentAsString()).contains("<html lang=\"en\">").doesNotContain("<script>");
        assertThat(page(get("/look/answer").cookie(new Cookie("hoodkeeper-language", "%%%"))))
                .contains("<html lang=\"en\">");
    }

    @Test
    void aVerdictIsAWordAndAShape() throws Exception {
        String full = mark(page(get("/look/answer").param("verdict", "CLEARED")), "Cleared");
        String half =
                mark(page(get("/look/answer").param("verdict", "CLEARED_WITH_CONDITIONS")), "Cleared with conditions");
        String barred = mark(page(get("/look/answer").param("verdict", "NOT_CLEARED")), "Not cleared");
        assertThat(full).isNotEqualTo(half).isNotEqualTo(barred);
        assertThat(half).isNotEqualTo(barred);
    }

    static String mark(String page, String word) {
        Matcher answer = Pattern.compile(
                        "<header class=\"answer \\w+\">\\s*<p class=\"verdict\">\\s*<svg(.*?)</svg>\\s*<span>" + word
                                + "</span>",
                        Pattern.DOTALL)
                .matcher(page);
        assertThat(answer.find()).as(word).isTrue();
        return answer.group(1);
    }

    @Test
    void reasonsSayResultWhySourceEndAndWhatClearsIt() throws Exception {
        assertThat(page(get("/look/answer")))
                .contains(
                        "<th scope=\"row\">Training for this model</th>",
                        "<a href=\"/records/1\">Training of 30 Nov 2025</a>",
                        "Source: 29 CFR 1910.134(k)(5)",
                        "until the end of 30 Nov 2026",
                        "<span>Flow check of 28 Nov 2026</span>",
                        "A storekeeper repairs the set and checks the flow again",
                        "Not known",
                        "Does not apply",
                        "To do at the start",
                        "data-head=\"Why\"",
                        "Bo &lt;Lind&gt;",
                        "Due soon: 30 Nov 2026");
    }

    @Test
    void aColumnIsSortedByItsLink() throws Exception {
        assertThat(page(get("/look/answer")))
                .contains("<th scope=\"col\" aria-sort=\"ascending\"><a href=\"?sort=-worker\">");
        SortLink other = SortLink.of("state=NOT_CLEARED&sort=worker&page=2", "task", "a.b", "worker");
        assertThat(other.href()).isEqualTo("?state=NOT_CLEARED&sort=task");
        assertThat(other.ariaSort()).isEqualTo("none");
        assertThat(SortLink.of(null, "task", "a.b", "-task").ariaSort()).isEqualTo("descending");
        assertThat(SortLink.of(null, "task", "a.b", "-task").href()).isEqualTo("?sort=task");
    }

    @Test
    void anEmptyFormHasNothingChosenAndNoError() throws Exception {
        assertThat(page(get("/look/form")))
                .doesNotContain("checked", "aria-invalid", "class=\"wrong\"", "type=\"number\"", "Error:")
                .containsPattern(
                        "name=\"formKey\" value=\"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}\"")
                .contains(
                        "inputmode=\"decimal\"",
                        "inputmode=\"numeric\"",
                        "type=\"datetime-local\"",
                        "aria-describedby=\"litresPerMinute-hint litresPerMinute-unit\"",
                        "<span class=\"unit\" id=\"litresPerMinute-unit\">L/min</span>",
                        "autocomplete=\"current-password\"")
                .containsPattern("<input[^>]*autofocus[^>]*id=\"label\"");
    }

    @Test
    void aFormThatIsRightIsTaken() throws Exception {
        MockHttpServletResponse response = ask(filled());
        assertThat(response.getStatus()).isEqualTo(302);
        assertThat(response.getRedirectedUrl())
                .isEqualTo("/look/form?taken=S-098-K,175.5,12,2026-11-30,2026-11-30T06:00,BELOW, two words ");
    }

    @Test
    void aRefusedFormSaysWhatAndWhereAndKeepsWhatWasTyped() throws Exception {
        String page = page(filled().with(request -> {
            request.setParameter("litresPerMinute", "1,2,3");
            request.removeParameter("floats");
            return request;
        }));
        assertThat(page)
                .contains(
                        "<title>Error: Flow check of set S-098 – Hoodkeeper</title>",
                        "<section class=\"wrong\" role=\"alert\" tabindex=\"-1\" autofocus",
                        "href=\"#litresPerMinute\"",
                        "href=\"#floats\"",
                        "An answer is needed here.",
                        "aria-describedby=\"litresPerMinute-hint litresPerMinute-unit litresPerMinute-error\"",
                        "id=\"litresPerMinute-error\"",
                        "value=\"S-098-K\"",
                        "value=\"1,2,3\"",
                        "value=\"12\"",
                        "value=\"2026-11-30\"",
                        "value=\"2026-11-30T06:00\"",
                        "wet &lt;b&gt;</textarea>")
                .containsPattern("id=\"seen\"[^>]*checked")
                .containsPattern("value=\"NONE\"[^>]*checked")
                .doesNotContain("two words", "java.", "Exception")
                .doesNotContainPattern("<input[^>]*autofocus");
        assertThat(page.indexOf("#litresPerMinute")).isLessThan(page.indexOf("#floats"));

        String nothingMade = page(post("/look/form").param("litresPerMinute", "x"));
        assertThat(nothingMade).containsPattern("(?s)#label\".*#litresPerMinute\".*#floats\"");
    }

    @Test
    void theSummaryNamesTheFieldByItsLabel() throws Exception {
        assertThat(page(post("/look/form").param("_seen", "on")))
                .containsPattern(
                        "<a href=\"#label\"><b>Label of the set</b>\\s*<span>An answer is needed here.</span></a>")
                .containsPattern("<a href=\"#floats\">\\s*<span>An answer is needed here.</span></a>");
    }

    @Test
    void aRefusalStandsBesideTheFieldItsCodeNames() throws Exception {
        String page = page(filled().with(request -> {
            request.setParameter("label", "REFUSE-FIELD");
            return request;
        }));
        assertThat(page)
                .contains(
                        "id=\"at-error\"",
                        "href=\"#at\"",
                        "value=\"2026-11-30T06:00\"",
                        "Change the end or the beginning");
    }

    @Test
    void aRefusalOfTheWholeStandsOverTheForm() throws Exception {
        assertThat(page(filled().with(request -> {
                    request.setParameter("label", "REFUSE-ALL");
                    return request;
                })))
                .contains(
                        "class=\"wrong\"",
                        "The last day must not lie before the first: 1 Nov 2026 is before 30 Nov 2026.")
                .doesNotContain("-error\"");
    }

    @Test
    void aTimeThatOccursTwiceIsAskedBack() throws Exception {
        String page = page(filled().with(request -> {
            request.setParameter("label", "TIME");
            request.setParameter("at", "2026-10-25T01:30");
            return request;
        }));
        assertThat(page)
                .contains(
                        "25 Oct 2026, 01:30 occurs twice on this site (Europe/London)",
                        "The first time (UTC+01:00), before the clocks went back",
                        "The second time (UTC), after the clocks went back",
                        "value=\"EARLIER\"",
                        "value=\"2026-10-25T01:30\"")
                .doesNotContainPattern("value=\"(EARLIER|LATER)\"[^>]*checked");
        assertThat(ask(filled().param("atOccurrence", "LATER").with(request -> {
                            request.setParameter("label", "TIME");
                            request.setParameter("at", "2026-10-25T01:30");
                            return request;
                        }))
                        .getStatus())
                .isEqualTo(302);
    }

    @Test
    void aTimeThatDoesNotOccurIsRefused() throws Exception {
        assertThat(page(filled().with(request -> {
                    request.setParameter("label", "TIME");
                    request.setParameter("at", "2026-03-29T01:30");
                    return request;
                })))
                .contains(
                        "29 Mar 2026, 01:30 does not occur on this site (Europe/London)",
                        "The first time after the change is 29 Mar 2026, 02:00",
                        "id=\"at-error\"");
    }

    @Test
    void aRefusedFormKeepsItsKeyAndAStrangeKeyIsReplaced() throws Exception {
        String key = "0192f0c1-2345-7abc-8def-0123456789ab";
        assertThat(page(post("/look/form").param("formKey", key))).contains("name=\"formKey\" value=\"" + key + "\"");
        assertThat(page(post("/look/form").param("formKey", "\"><u>"))).doesNotContain("\"><u>");
        assertThat(page(get("/look/form").param("formKey", key))).doesNotContain(key);
    }

    @Test
    void whatNoDatabaseCanHoldIsDropped() throws Exception {
        assertThat(ask(filled().with(request -> {
                            request.setParameter("label", "S-\u0000098-K");
                            return request;
                        }))
                        .getRedirectedUrl())
                .contains("taken=S-098-K,");
    }

    @Test
    void theStyleIsOneFileOfOurOwn() throws Exception {
        MockHttpServletResponse css = ask(get("/css/hoodkeeper.css"));
        assertThat(css.getStatus()).isEqualTo(200);
        assertThat(css.getContentAsString())
                .contains("prefers-color-scheme: dark", "forced-colors: active", "@media print", "scroll-padding")
                .doesNotContain("@import", "url(");
        assertThat(ask(get("/img/mark.svg")).getStatus()).isEqualTo(200);
    }

    @Test
    void readersAtTheSameMomentGetTheirOwnLanguageAndName() throws Exception {
        ExecutorService readers = Executors.newFixedThreadPool(8);
        List<Future<String>> pages = new ArrayList<>();
        for (int i = 0; i < 400; i++) {
            String language = i % 2 == 0 ? "en" : "es";
            MockHttpServletRequestBuilder request = get("/look/answer").header("Accept-Language", language);
            pages.add(readers.submit(() -> page(language.equals("es") ? request : request.param("nobody", ""))));
        }
        for (int i = 0; i < 400; i++) {
            String page = pages.get(i).get(1, TimeUnit.MINUTES);
            if (i % 2 == 0) {
                assertThat(page)
                        .contains("<html lang=\"en\">", "Leave the area")
                        .doesNotContain("Maren", "Salga");
            } else {
                assertThat(page)
                        .contains("<html lang=\"es\">", "Salga de la zona", "Maren")
                        .doesNotContain("Leave the");
            }
        }
        readers.shutdown();
    }

    /** Leaves the pages in target/look for looking at; asserts that each was made. */
    @Test
    void thePagesCanBeLookedAt() throws Exception {
        Path folder = Files.createDirectories(Path.of("target/look"));
        String css = Files.readString(Path.of("src/main/resources/static/css/hoodkeeper.css"));
        for (String language : new String[] {"en", "es"}) {
            for (String verdict : new String[] {"CLEARED", "CLEARED_WITH_CONDITIONS", "NOT_CLEARED"}) {
                leave(
                        folder,
                        css,
                        "answer-" + verdict + "-" + language,
                        get("/look/answer").param("verdict", verdict),
                        language);
            }
            leave(folder, css, "form-" + language, get("/look/form"), language);
            leave(
                    folder,
                    css,
                    "wrong-" + language,
                    post("/look/form").param("_seen", "on").param("litresPerMinute", "x"),
                    language);
        }
        assertThat(folder.toFile().list()).hasSizeGreaterThanOrEqualTo(10);
    }

    void leave(Path folder, String css, String name, MockHttpServletRequestBuilder request, String language)
            throws Exception {
        String page = page(request.header("Accept-Language", language));
        Files.writeString(
                folder.resolve(name + ".html"),
                page.replaceFirst(
                        "<link rel=\"stylesheet\"[^>]*>", Matcher.quoteReplacement("<style>" + css + "</style>")));
    }
}
