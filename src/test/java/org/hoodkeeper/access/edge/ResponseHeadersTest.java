package org.hoodkeeper.access.edge;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.stream.Stream;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.mock.env.MockEnvironment;
import org.springframework.mock.web.MockFilterChain;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.session.web.http.CookieSerializer;

/** OWASP ASVS 5.0.0, 3.3 and 3.4. */
@OverHttp
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ResponseHeadersTest {

    private static final Map<String, String> ALWAYS = Map.of(
            "Content-Security-Policy",
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
                    + "manifest-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
            "X-Content-Type-Options",
            "nosniff",
            "Referrer-Policy",
            "same-origin",
            "Cross-Origin-Opener-Policy",
            "same-origin",
            "Cross-Origin-Resource-Policy",
            "same-origin",
            "Permissions-Policy",
            "camera=(self), publickey-credentials-get=(self), publickey-credentials-create=(self), geolocation=(), "
                    + "microphone=(), payment=(), usb=(), serial=(), bluetooth=(), display-capture=()");

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    Site site;
    Browser officer;

    @BeforeAll
    void signIn() {
        site = people.site();
        Person person = people.person(site, Role.OFFICER);
        officer = new Browser(port);
        assertThat(officer.signIn(person.login(), TestPeople.PASSWORD).statusCode())
                .isEqualTo(302);
    }

    @ParameterizedTest
    @CsvSource({
        "nobody,  GET,  /sign-in,                                200",
        "nobody,  POST, /sign-in,                                302",
        "nobody,  GET,  /sites/SITE/knock/officer,               302",
        "nobody,  GET,  /first-administrator/no-such-link,       404",
        "nobody,  GET,  /css/hoodkeeper.css,                     200",
        "nobody,  GET,  /css/no-such-file.css,                   404",
        "nobody,  GET,  /actuator/health,                        200",
        "nobody,  GET,  /actuator/env,                           302",
        "nobody,  GET,  /api/sites/SITE/knock/officer,           401",
        "nobody,  GET,  /sign-in;x=1,                            400",
        "officer, GET,  /sites/SITE/knock/officer,               200",
        "officer, GET,  /sites/SITE/knock/undeclared,            403",
        "officer, GET,  /sites/SITE/accounts,                    403",
        "officer, GET,  /sites/no-such-site/accounts,            404",
        "officer, GET,  /no/such/page,                           404",
        "officer, GET,  /sites/SITE/knock/fault,                 500",
        "officer, POST, /sites/SITE/knock/officer,               405",
        "officer, GET,  /actuator/env,                           403"
    })
    void everyKindOfAnswerCarriesThem(String who, String method, String path, int status) {
        Browser browser = who.equals("officer") ? officer : new Browser(port);
        String there = path.replace("SITE", site.code());
        HttpResponse<String> answer = method.equals("GET") ? browser.get(there) : browser.post(there);
        assertThat(answer.statusCode()).isEqualTo(status);
        ALWAYS.forEach((name, value) ->
                assertThat(answer.headers().allValues(name)).as(name).containsExactly(value));
        assertThat(answer.headers().firstValue("Access-Control-Allow-Origin")).isEmpty();
        assertThat(answer.headers().firstValue("Server")).isEmpty();
        if (!path.startsWith("/css/")) {
            assertThat(answer.headers().firstValue("Cache-Control").orElse("")).contains("no-store");
        }
        assertThat(answer.body()).doesNotContain("a secret of the inside").doesNotContain("\tat ");
    }

    @Test
    void whatCannotBeReadAsARequestShowsNothingOfTheInside() throws IOException {
        try (Socket socket = new Socket("localhost", port)) {
            socket.getOutputStream()
                    .write("GET /%zz HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n"
                            .getBytes(StandardCharsets.US_ASCII));
            InputStream in = socket.getInputStream();
            String answer = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            assertThat(answer)
                    .startsWith("HTTP/1.1 400")
                    .doesNotContain("Exception")
                    .doesNotContain("Tomcat");
        }
    }

    @Test
    void overTlsBrowsersAreToldToStayThere() throws Exception {
        MockHttpServletRequest request = new MockHttpServletRequest("GET", "/sign-in");
        request.setSecure(true);
        MockHttpServletResponse response = new MockHttpServletResponse();
        new ResponseHeaders().responseHeadersFilter().getFilter().doFilter(request, response, new MockFilterChain());
        assertThat(response.getHeader("Strict-Transport-Security")).isEqualTo("max-age=31536000 ; includeSubDomains");
    }

    @ParameterizedTest
    @CsvSource({
        "hoodkeeper.trusted-proxy, true",
        "server.ssl.bundle,        web",
        "server.ssl.key-store,     keys.p12",
        "server.ssl.certificate,   web.pem"
    })
    void overTlsTheCookieBelongsToThisHostAndToTls(String property, String value) {
        Transport transport = new Transport(new MockEnvironment().withProperty(property, value));
        assertThat(cookie(transport))
                .startsWith("__Host-hoodkeeper-session=")
                .contains("; Path=/;", "; Secure", "; HttpOnly", "; SameSite=Lax")
                .doesNotContain("Domain");
    }

    @Test
    void onTheLoopbackDemoItGoesWithoutSecure() {
        assertThat(cookie(new Transport(new MockEnvironment())))
                .startsWith("hoodkeeper-session=")
                .contains("; Path=/;", "; HttpOnly", "; SameSite=Lax")
                .doesNotContain("Secure");
    }

    private static String cookie(Transport transport) {
        MockHttpServletResponse response = new MockHttpServletResponse();
        new SessionSettings()
                .sessionCookie(transport)
                .writeCookieValue(new CookieSerializer.CookieValue(new MockHttpServletRequest(), response, "an-id"));
        return Stream.of(response.getHeader("Set-Cookie")).findFirst().orElseThrow();
    }
}
