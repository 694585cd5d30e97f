package org.hoodkeeper.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.Hoodkeeper;
import org.hoodkeeper.database.TestDatabase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.context.ConfigurableApplicationContext;

/** An empty database: one link on the console, one administrator, one site; then never again. */
@ExtendWith(OutputCaptureExtension.class)
class FirstStartTest {

    private static final Pattern LINK =
            Pattern.compile("http://127\\.0\\.0\\.1:(\\d+)(/first-administrator/[\\w-]{43})");

    @Test
    void theConsolesLinkMakesTheFirstAdministratorOnce(CapturedOutput console) {
        String[] arguments = TestDatabase.emptyAsArguments();
        try (ConfigurableApplicationContext service = start(arguments)) {
            Matcher link = LINK.matcher(console.getOut());
            assertThat(link.find()).isTrue();
            String path = link.group(2);
            Browser browser = new Browser(Integer.parseInt(link.group(1)));
            assertThat(browser.get(path).body())
                    .contains("name=\"siteCode\"", "us-federal".replace("us-federal", "US_FEDERAL"));

            HttpResponse<String> refused = send(browser, path, "password1234", "north-pit");
            assertThat(refused.statusCode()).isEqualTo(422);
            assertThat(refused.body())
                    .contains("among the first that are guessed", "value=\"north-pit\"")
                    .doesNotContain("password1234");
            HttpResponse<String> badCode = send(browser, path, TestPeople.PASSWORD, "North Pit");
            assertThat(badCode.statusCode()).isEqualTo(422);
            assertThat(badCode.body()).contains("Use 2 to 20 small letters");

            HttpResponse<String> begun = send(browser, path, TestPeople.PASSWORD, "north-pit");
            assertThat(Browser.target(begun)).as(begun.body()).isEqualTo("/sign-in?begun");
            assertThat(browser.get(path).statusCode()).isEqualTo(404);
            assertThat(send(browser, path, TestPeople.PASSWORD, "south-pit").statusCode())
                    .isEqualTo(404);

            browser.signIn("First.Person", TestPeople.PASSWORD);
            assertThat(Browser.target(browser.get("/"))).isEqualTo("/sites/north-pit/accounts");
            assertThat(browser.get("/sites/north-pit/accounts").body()).contains("first.person", "administrator");
        }
        int before = console.getOut().length();
        try (ConfigurableApplicationContext again = start(arguments)) {
            assertThat(console.getOut().substring(before)).doesNotContain("first-administrator");
        }
    }

    private static HttpResponse<String> send(Browser browser, String path, String password, String code) {
        return browser.post(
                path,
                "login",
                "First.Person",
                "name",
                "First Person",
                "password",
                password,
                "again",
                password,
                "siteCode",
                code,
                "siteName",
                "North pit",
                "zone",
                "Europe/London",
                "ruleSet",
                "US_FEDERAL");
    }

    private static ConfigurableApplicationContext start(String... arguments) {
        return new SpringApplicationBuilder(Hoodkeeper.class).run(arguments);
    }
}
