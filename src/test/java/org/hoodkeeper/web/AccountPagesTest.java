package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;

/** What an administrator and those around do on the account pages. */
@OverHttp
class AccountPagesTest {

    private static final Pattern LINK = Pattern.compile("http://[^/]+(/choose-password/[\\w-]{43})");

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    Site site;
    String accounts;
    Browser administrator;

    @BeforeEach
    void anAdministrator() {
        site = people.site();
        accounts = "/sites/" + site.code() + "/accounts";
        administrator = signedIn(Role.ADMINISTRATOR);
    }

    @Test
    void anAddedPersonChoosesAPasswordAndComesIn() {
        String login = "n" + TestPeople.unique();
        administrator.get(accounts + "/new");
        HttpResponse<String> added =
                administrator.post(accounts, "login", login, "name", "Nila Ferro", "roles", "STOREKEEPER");
        String page = Browser.target(added);
        assertThat(page).startsWith(accounts + "/");
        assertThat(administrator.get(page).body()).contains("Nila Ferro cannot sign in yet");

        Matcher link = LINK.matcher(administrator.post(page + "/password-link").body());
        assertThat(link.find()).isTrue();
        Browser person = new Browser(port);
        person.get(link.group(1));
        HttpResponse<String> differ =
                person.post(link.group(1), "password", "four grey herons ", "again", "four grey herons");
        assertThat(differ.statusCode()).isEqualTo(422);
        assertThat(differ.body()).contains("The two passwords differ");
        // a blank at the end belongs to the password
        HttpResponse<String> chosen =
                person.post(link.group(1), "password", "four grey herons ", "again", "four grey herons ");
        assertThat(Browser.target(chosen)).isEqualTo("/sign-in?chosen");
        assertThat(person.signIn(login, "four grey herons").statusCode()).isEqualTo(401);
        assertThat(Browser.target(person.signIn(login, "four grey herons "))).isEqualTo("/");
        assertThat(person.cookies()).containsKey("hoodkeeper-device");
        assertThat(Browser.target(person.get("/"))).isEqualTo("/sites/" + site.code() + "/bench");

        assertThat(administrator.get(page).body())
                .contains("Nila Ferro can sign in.", "Sign the person out everywhere");
        administrator.post(page + "/end-sessions");
        assertThat(Browser.target(person.get("/"))).isEqualTo("/sign-in");
        administrator.post(page + "/disable");
        assertThat(administrator.get(page).body()).contains("Nila Ferro is disabled");
    }

    @ParameterizedTest
    @CsvSource({
        "'', Nila, STOREKEEPER, '', An answer is needed here",
        "no spaces please, Nila, STOREKEEPER, '', 'no spaces please has something else'",
        "fine, '', STOREKEEPER, '', An answer is needed here",
        "fine, Nila, WORKER, '', Type the worker’s number",
        "fine, Nila, WORKER, 17, “17” is not the number of a worker",
        "fine, Nila, EMPLOYER, '', Type it",
        "fine, Nila, NO_SUCH_ROLE, '', "
    })
    void whatCannotBeTakenIsSaidBesideItsFieldAndStays(
            String login, String name, String role, String worker, String message) {
        administrator.get(accounts + "/new");
        HttpResponse<String> answer =
                administrator.post(accounts, "login", login, "name", name, "roles", role, "worker", worker);
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains(message == null ? "class=\"error\"" : message);
        for (String typed : List.of(login, name, worker)) {
            assertThat(answer.body()).contains(typed.isEmpty() ? "" : "value=\"" + typed + "\"");
        }
    }

    @Test
    void theHealthRoleWaitsForTheOfficerWhoGetsTheLink() {
        administrator.get(accounts + "/new");
        String page = Browser.target(administrator.post(
                accounts, "login", "h" + TestPeople.unique(), "name", "Dr. Ilse Brandt", "roles", "HEALTH"));
        assertThat(administrator.get(page).body()).contains("No role on this site yet");
        String requests = "/sites/" + site.code() + "/requests";
        assertThat(administrator.get(requests).body())
                .contains("give the health role")
                .doesNotContain("/confirm");
        Browser officer = signedIn(Role.OFFICER);
        Matcher confirm = Pattern.compile("action=\"([^\"]+/confirm)\"")
                .matcher(officer.get(requests).body());
        assertThat(confirm.find()).isTrue();
        assertThat(LINK.matcher(officer.post(confirm.group(1)).body()).find()).isTrue();
        assertThat(officer.post(confirm.group(1)).statusCode()).isEqualTo(404);
        assertThat(administrator.get(page).body()).contains("health professional");
    }

    @Test
    void everyoneMakesAndRevokesTheirOwnTokens() {
        String tokens = "/sites/" + site.code() + "/tokens";
        Browser officer = signedIn(Role.OFFICER);
        officer.get(tokens);
        HttpResponse<String> made = officer.post(tokens, "name", "nightly file", "roles", "OFFICER");
        assertThat(made.body()).containsPattern("hk1\\." + site.code() + "\\.[\\w-]{43}");
        HttpResponse<String> again = officer.post(tokens, "name", "nightly file", "roles", "OFFICER");
        assertThat(again.statusCode()).isEqualTo(422);
        assertThat(again.body()).contains("You have a token for nightly file already");
        assertThat(officer.post(tokens, "name", "x", "roles", "HEALTH").body()).contains("Choose among the roles");
        Matcher revoke = Pattern.compile("action=\"([^\"]+/revoke)\"")
                .matcher(officer.get(tokens).body());
        assertThat(revoke.find()).isTrue();
        Browser other = signedIn(Role.OFFICER);
        other.get(tokens);
        assertThat(other.post(revoke.group(1)).statusCode()).isEqualTo(404);
        officer.post(revoke.group(1));
        assertThat(officer.get(tokens).body()).contains("revoked ").doesNotContain("/revoke");
    }

    @Test
    void somebodyFromAnotherSiteGetsARoleHere() {
        Person elsewhere = people.person(people.site(), Role.OFFICER);
        administrator.get(accounts + "/known");
        HttpResponse<String> unknown =
                administrator.post(accounts + "/known", "login", "nobody-here", "role", "TRAINER");
        assertThat(unknown.statusCode()).isEqualTo(422);
        assertThat(unknown.body()).contains("Nobody signs in as nobody-here");
        String page =
                Browser.target(administrator.post(accounts + "/known", "login", elsewhere.login(), "role", "TRAINER"));
        assertThat(administrator.get(page).body()).contains("fit tester or trainer");
        HttpResponse<String> refused = administrator.post(page + "/disable");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("a site that you do not administer");
    }

    @Test
    void anAccountOfAnotherSiteIsNotShown() {
        Person elsewhere = people.person(people.site(), Role.OFFICER);
        assertThat(administrator.get(accounts + "/" + elsewhere.id()).statusCode())
                .isEqualTo(404);
        assertThat(administrator.get(accounts + "/" + UUID.randomUUID()).statusCode())
                .isEqualTo(404);
        assertThat(administrator.get(accounts + "/17").statusCode()).isEqualTo(404);
    }

    @ParameterizedTest
    @ValueSource(strings = {"/accounts", "/accounts/new", "/accounts/known", "/requests", "/tokens"})
    void everyPageSpeaksSpanishToo(String page) {
        String body =
                administrator.get("/sites/" + site.code() + page + "?lang=es").body();
        assertThat(body).contains("lang=\"es\"").doesNotContain("??", "/sites//", "//accounts");
    }

    private Browser signedIn(Role role) {
        Person person = people.person(List.of(people.grant(site.id(), role)));
        Browser browser = new Browser(port);
        assertThat(Browser.target(browser.signIn(person.login(), TestPeople.PASSWORD)))
                .isEqualTo("/");
        return browser;
    }
}
