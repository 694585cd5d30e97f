package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;

import jakarta.servlet.RequestDispatcher;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.http.MediaType;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.request.MockHttpServletRequestBuilder;

@SpringBootTest(classes = LookPages.class, properties = "spring.mvc.problemdetails.enabled=true")
@AutoConfigureMockMvc(addFilters = false)
class MishapTest {

    @Autowired
    MockMvc mvc;

    MockHttpServletResponse ask(MockHttpServletRequestBuilder request) throws Exception {
        return mvc.perform(request.accept("text/html", "*/*;q=0.8")).andReturn().getResponse();
    }

    static void isPage(MockHttpServletResponse response, int status, String words) throws Exception {
        assertThat(response.getStatus()).isEqualTo(status);
        assertThat(response.getContentType()).startsWith("text/html");
        assertThat(response.getContentAsString())
                .contains(
                        "<html lang=",
                        words,
                        "Leave the area when an alarm sounds.",
                        "Maren Oduya",
                        "rel=\"stylesheet\"")
                .doesNotContain("??", "Exception", "java.", "org.", "Whitelabel");
    }

    @Test
    void whatIsNotThereIsNotFound() throws Exception {
        isPage(
                ask(get("/look/sets/0192f0c1-2345-7abc-8def-0123456789ab")),
                404,
                "There is nothing here that you can see");
        isPage(ask(get("/look/nowhere")), 404, "There is nothing here that you can see");
        isPage(ask(get("/error")), 404, "There is nothing here that you can see");
    }

    @ParameterizedTest
    @CsvSource({"not-an-id", "12", "0192f0c1-2345-7abc-8def-0123456789ab-1", "%00", "%3Cscript%3E"})
    void anIdNobodyGaveIsNotFound(String id) throws Exception {
        isPage(ask(get(java.net.URI.create("/look/sets/" + id))), 404, "There is nothing here that you can see");
    }

    @Test
    void aQuestionNobodyCanReadIsNotUnderstood() throws Exception {
        isPage(ask(get("/look/answer").param("verdict", "MAYBE")), 400, "This address or form was not understood");
        isPage(ask(get("/look/needs")), 400, "This address or form was not understood");
        isPage(ask(get("/look/needs").param("on", "2026-02-30")), 400, "This address or form was not understood");
    }

    @Test
    void theWrongMethodIsSaid() throws Exception {
        MockHttpServletResponse response = ask(post("/look/answer"));
        isPage(response, 405, "This page cannot be used that way");
    }

    @Test
    void aRefusalOutsideOfAFormIsAPage() throws Exception {
        isPage(
                ask(get("/look/refused")),
                422,
                "The last day must not lie before the first: 1 Nov 2026 is before 30 Nov 2026.");
    }

    @Test
    void aLostRaceIsSaid() throws Exception {
        isPage(ask(get("/look/race")), 409, "Somebody else changed this at the same moment");
    }

    @Test
    void recordsOutOfReachAreSaid() throws Exception {
        isPage(ask(get("/look/unreachable")), 503, "The service cannot reach its records right now");
    }

    @Test
    void aFileTooLargeIsSaid() throws Exception {
        isPage(ask(get("/look/large")), 413, "This file or text is too large");
    }

    @ParameterizedTest
    @CsvSource({
        "400,This address or form was not understood",
        "403,Your account may not open this page",
        "404,There is nothing here that you can see",
        "405,This page cannot be used that way",
        "409,Somebody else changed this at the same moment",
        "413,This file or text is too large",
        "418,This address or form was not understood",
        "429,Too many tries in a short time",
        "500,Something broke on our side",
        "502,Something broke on our side",
        "503,The service cannot reach its records right now"
    })
    void whatTheContainerStopsIsAPageInTheLayout(int status, String words) throws Exception {
        isPage(ask(stopped(status, "/look/answer")), status, words);
        MockHttpServletResponse spanish = ask(stopped(status, "/look/answer").header("Accept-Language", "es"));
        assertThat(spanish.getContentAsString()).contains("<html lang=\"es\">").doesNotContain("??", words);
    }

    @Test
    void aFaultOfOursNeverShowsWhatItWas() throws Exception {
        isPage(
                ask(stopped(500, "/look/answer")
                        .requestAttr(RequestDispatcher.ERROR_EXCEPTION, new IllegalStateException("jdbc:secret"))
                        .requestAttr(RequestDispatcher.ERROR_MESSAGE, "jdbc:secret")),
                500,
                "nothing on this page clears anybody to work");
        assertThat(ask(stopped(500, "/look/answer").requestAttr(RequestDispatcher.ERROR_MESSAGE, "jdbc:secret"))
                        .getContentAsString())
                .doesNotContain("jdbc:secret");
    }

    static MockHttpServletRequestBuilder stopped(int status, String path) {
        return get("/error")
                .requestAttr(RequestDispatcher.ERROR_STATUS_CODE, status)
                .requestAttr(RequestDispatcher.ERROR_REQUEST_URI, path);
    }

    @Test
    void programsGetAProblemInJson() throws Exception {
        MockHttpServletResponse refused = ask(get("/api/look/refused"));
        assertThat(refused.getStatus()).isEqualTo(422);
        assertThat(refused.getContentType()).isEqualTo(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
        assertThat(refused.getContentAsString())
                .contains("\"status\":422", "\"code\":\"validity.order\"", "1 Nov 2026 is before 30 Nov 2026");

        MockHttpServletResponse nowhere = ask(get("/api/nowhere"));
        assertThat(nowhere.getStatus()).isEqualTo(404);
        assertThat(nowhere.getContentType()).isEqualTo(MediaType.APPLICATION_PROBLEM_JSON_VALUE);

        MockHttpServletResponse method = ask(post("/api/look/refused"));
        assertThat(method.getStatus()).isEqualTo(405);
        assertThat(method.getHeader("Allow")).isEqualTo("GET");
        assertThat(method.getContentType()).isEqualTo(MediaType.APPLICATION_PROBLEM_JSON_VALUE);

        MockHttpServletResponse denied = ask(stopped(403, "/api/look/refused"));
        assertThat(denied.getStatus()).isEqualTo(403);
        assertThat(denied.getContentType()).isEqualTo(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
    }
}
