package org.hoodkeeper.access.edge;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.Base64;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.CommandTokens;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;

/** Sessions, tokens and the gate, over real HTTP. */
@OverHttp
class EdgeTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    Accounts accounts;

    @Autowired
    CommandTokens tokens;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    TransactionTemplate transaction;

    Site site;
    Person officer;
    Browser browser;

    @BeforeEach
    void anOfficer() {
        site = people.site();
        officer = people.person(site, Role.OFFICER);
        browser = new Browser(port);
    }

    @ParameterizedTest
    @CsvSource({
        "WORKER, today",
        "STOREKEEPER, bench",
        "OFFICER, board",
        "SUPERVISOR, board",
        "HEALTH, board",
        "ADMINISTRATOR, accounts"
    })
    void eachRoleComesToItsFirstPage(Role role, String page) {
        Person person = people.person(site, role);
        assertThat(Browser.target(browser.signIn(person.login(), TestPeople.PASSWORD)))
                .isEqualTo("/");
        assertThat(Browser.target(browser.get("/"))).isEqualTo("/sites/" + site.code() + "/" + page);
    }

    @Test
    void whoHasRolesOnSeveralSitesChooses() {
        Site other = people.site();
        Person person = people.person(
                List.of(RoleGrant.of(site.id(), Role.OFFICER), RoleGrant.of(other.id(), Role.STOREKEEPER)));
        browser.signIn(person.login(), TestPeople.PASSWORD);
        assertThat(Browser.target(browser.get("/"))).isEqualTo("/sites");
        assertThat(browser.get("/sites").body())
                .contains("/sites/" + site.code() + "/board", "/sites/" + other.code() + "/bench");
    }

    @Test
    void signingInLeadsToThePageThatWasAskedFor() {
        String asked = "/sites/" + site.code() + "/knock/officer";
        assertThat(Browser.target(browser.get(asked))).isEqualTo("/sign-in");
        assertThat(Browser.target(browser.signIn(officer.login(), TestPeople.PASSWORD)))
                .startsWith(asked);
        assertThat(browser.get(asked).body()).isEqualTo("[OFFICER]");
    }

    @Test
    void aRefusedTryKeepsTheNameAndSaysTheSameForEverybody() {
        browser.get("/sign-in");
        HttpResponse<String> wrong = browser.post("/sign-in", "login", officer.login(), "password", "not this one");
        assertThat(wrong.statusCode()).isEqualTo(401);
        assertThat(wrong.body())
                .contains("value=\"" + officer.login() + "\"", "Sign-in name and password do not go together")
                .doesNotContain("not this one");
        HttpResponse<String> unknown = browser.post("/sign-in", "login", "nobody", "password", "not this one");
        assertThat(plain(unknown, "nobody")).isEqualTo(plain(wrong, officer.login()));
    }

    /** OWASP ASVS 5.0.0, 7.2.4. */
    @Test
    void theSessionsIdChangesAtSignIn() {
        browser.get("/sign-in");
        String before = browser.cookies().get("hoodkeeper-session");
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        assertThat(before).isNotNull();
        assertThat(browser.cookies().get("hoodkeeper-session")).isNotNull().isNotEqualTo(before);
    }

    /** OWASP ASVS 5.0.0, 7.4.1: the old cookie is worth nothing afterwards. */
    @Test
    void signingOutEndsTheSessionOnTheServer() {
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        browser.get("/sites");
        String old = browser.cookies().get("hoodkeeper-session");
        assertThat(Browser.target(browser.post("/sign-out"))).isEqualTo("/sign-in?signedOut");
        browser.cookies().put("hoodkeeper-session", old);
        assertThat(Browser.target(browser.get("/sites"))).isEqualTo("/sign-in");
    }

    @Test
    void signingOutNeedsTheFormsToken() {
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        browser.forgetToken();
        assertThat(browser.post("/sign-out").statusCode()).isEqualTo(403);
        assertThat(browser.get("/sites").statusCode()).isEqualTo(200);
    }

    @Test
    void aFormThatOutlivedItsSessionLeadsToSignIn() {
        assertThat(Browser.target(new Browser(port).post("/sites/" + site.code() + "/knock/write")))
                .isEqualTo("/sign-in?expired");
    }

    /** Idle for more than one hour; older than twelve. */
    @ParameterizedTest
    @CsvSource({
        "last_access_time, 59, 200",
        "last_access_time, 61, 302",
        "creation_time, 719, 200",
        "creation_time, 721, 302"
    })
    void aSessionEndsWhenIdleAndAfterItsLongestTime(String column, int minutes, int status) {
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        long then = System.currentTimeMillis() - minutes * 60_000L;
        jdbc.sql("update spring_session set " + column + " = ?,"
                        + " expiry_time = case when ? = 'last_access_time' then ? + max_inactive_interval * 1000::bigint"
                        + " else expiry_time end where principal_name = ?")
                .param(then)
                .param(column)
                .param(then)
                .param(officer.id().toString())
                .update();
        assertThat(browser.get("/sites").statusCode()).isEqualTo(status);
    }

    /** OWASP ASVS 5.0.0, 7.4.2. */
    @Test
    void aDisabledAccountIsOutAtOnce() {
        Person administrator = people.person(site, Role.ADMINISTRATOR);
        String token = token(Role.OFFICER);
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        assertThat(browser.get("/sites").statusCode()).isEqualTo(200);
        people.on(site, () -> accounts.disable(officer.id(), people.viewer(site, administrator)));
        assertThat(Browser.target(browser.get("/sites"))).isEqualTo("/sign-in");
        assertThat(browser.signIn(officer.login(), TestPeople.PASSWORD).statusCode())
                .isEqualTo(401);
        assertThat(command(token, "/knock/officer").statusCode()).isEqualTo(401);
    }

    @Test
    void aSiteWithoutRoleLooksLikeNoSite() {
        Site other = people.site();
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        HttpResponse<String> foreign = browser.get("/sites/" + other.code() + "/knock/officer");
        HttpResponse<String> unknown = browser.get("/sites/no-such-site/knock/officer");
        assertThat(foreign.statusCode()).isEqualTo(404);
        assertThat(plain(foreign, other.code())).isEqualTo(plain(unknown, "no-such-site"));
    }

    @Test
    void aPageThatDoesNotSayWhoMayCallItIsRefused() {
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        assertThat(browser.get("/sites/" + site.code() + "/knock/undeclared").statusCode())
                .isEqualTo(403);
        assertThat(browser.get("/knock/undeclared").statusCode()).isEqualTo(403);
        assertThat(command(token(Role.OFFICER), "/knock/undeclared").statusCode())
                .isEqualTo(403);
    }

    @Test
    void theDatabaseShowsThePagesSiteOnly() {
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        assertThat(browser.get("/sites/" + site.code() + "/knock/bound").body())
                .isEqualTo(site.id().toString());
        assertThat(SiteBinding.current()).isNull();
    }

    @Test
    void aRoleTakenAwayIsGoneAtTheNextRequest() {
        Person administrator = people.person(site, Role.ADMINISTRATOR);
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        assertThat(browser.get("/sites/" + site.code() + "/knock/officer").statusCode())
                .isEqualTo(200);
        people.on(site, () -> accounts.take(officer.id(), Role.OFFICER, people.viewer(site, administrator)));
        assertThat(browser.get("/sites/" + site.code() + "/knock/officer").statusCode())
                .isEqualTo(404);
    }

    @Test
    void aTokenOpensItsSiteWithItsRolesOnly() {
        Site other = people.site();
        Person both = people.person(List.of(
                RoleGrant.of(site.id(), Role.OFFICER),
                RoleGrant.of(site.id(), Role.STOREKEEPER),
                RoleGrant.of(other.id(), Role.OFFICER)));
        String officers = tokenOf(both, Role.OFFICER);
        String storekeepers = tokenOf(both, Role.STOREKEEPER);
        assertThat(command(officers, "/knock/officer").body()).isEqualTo("[OFFICER]");
        assertThat(command(storekeepers, "/knock/officer").statusCode()).isEqualTo(403);
        assertThat(send(officers, "/api/sites/" + other.code() + "/knock/officer")
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void aRevokedMistypedOrUnknownTokenIsRefused() {
        String token = token(Role.OFFICER);
        assertThat(command(token, "/knock/officer").statusCode()).isEqualTo(200);
        assertThat(command(token + "x", "/knock/officer").statusCode()).isEqualTo(401);
        assertThat(command("hk1.no-such-site.abc", "/knock/officer").statusCode())
                .isEqualTo(401);
        assertThat(command("abc", "/knock/officer").statusCode()).isEqualTo(401);
        UUID id = tokens.of(site.id(), officer.id()).get(0).id();
        assertThat(tokens.of(site.id(), officer.id()).get(0).lastUsedAt()).isNotNull();
        people.on(site, () -> tokens.revoke(id, people.viewer(site, officer)));
        assertThat(command(token, "/knock/officer").statusCode()).isEqualTo(401);
    }

    @Test
    void commandsAlsoTakeNameAndPassword() {
        assertThat(basic(officer.login(), TestPeople.PASSWORD).body()).isEqualTo("[OFFICER]");
        HttpResponse<String> refused = basic(officer.login(), "not this one");
        assertThat(refused.statusCode()).isEqualTo(401);
        assertThat(refused.body()).contains("We do not know who is asking");
        // at a Basic challenge a browser would keep the password and send it along with a foreign page's request
        assertThat(refused.headers().allValues("WWW-Authenticate")).containsExactly("Bearer realm=\"Hoodkeeper\"");
    }

    @Test
    void aSessionIsWorthNothingForCommands() {
        browser.signIn(officer.login(), TestPeople.PASSWORD);
        assertThat(browser.get("/sites").statusCode()).isEqualTo(200);
        assertThat(browser.get("/api/sites/" + site.code() + "/knock/officer").statusCode())
                .isEqualTo(401);
        assertThat(browser.post("/api/sites/" + site.code() + "/knock/write").statusCode())
                .isEqualTo(401);
    }

    @Test
    void aCommandMakesNoSession() {
        HttpResponse<String> answer = command(token(Role.OFFICER), "/knock/officer");
        assertThat(answer.headers().allValues("Set-Cookie")).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"cross-site, 403", "same-site, 403", "none, 200", "same-origin, 200"})
    void aCommandFromAnotherSitesPageIsRefused(String from, int status) {
        HttpRequest request = browser.request("/api/sites/" + site.code() + "/knock/write")
                .header("Authorization", "Bearer " + token(Role.OFFICER))
                .header("Sec-Fetch-Site", from)
                .POST(HttpRequest.BodyPublishers.noBody())
                .build();
        assertThat(browser.send(request).statusCode()).isEqualTo(status);
    }

    @Test
    void refusalsAndTokenUsesAreInTheTrail() {
        Person storekeeper = people.person(site, Role.STOREKEEPER);
        browser.signIn(storekeeper.login(), TestPeople.PASSWORD);
        browser.get("/sites/" + site.code() + "/knock/officer");
        command(token(Role.OFFICER), "/knock/officer");
        String secret = "a-secret-in-the-address";
        browser.get("/sites/" + people.site().code() + "/accounts/" + secret);
        assertThat(trail("audit_event", storekeeper)).containsExactly("access.refused GET /sites/{site}/knock/officer");
        assertThat(trail("audit_event", officer)).contains("token.used ");
        assertThat(trail("service_audit_event", storekeeper))
                .contains("signIn.accepted ", "access.noSuchSite GET /sites/{site}/accounts/{account}")
                .noneMatch(line -> line.contains(secret));
    }

    private List<String> trail(String table, Person actor) {
        return transaction.execute(status -> {
            jdbc.sql("select set_config('hoodkeeper.site', ?, true)")
                    .param(site.id().toString())
                    .query(String.class)
                    .single();
            return jdbc.sql("select kind || ' ' || coalesce(detail, '') from " + table
                            + " where actor = ? order by event_id")
                    .param(actor.id().value())
                    .query(String.class)
                    .list();
        });
    }

    private String token(Role role) {
        return tokenOf(officer, role);
    }

    private String tokenOf(Person person, Role role) {
        return SiteBinding.in(
                site.id(), () -> tokens.make(role + " command", Set.of(role), people.viewer(site, person)));
    }

    private HttpResponse<String> command(String token, String page) {
        return send(token, "/api/sites/" + site.code() + page);
    }

    private HttpResponse<String> send(String token, String path) {
        Browser command = new Browser(port);
        return command.send(command.request(path)
                .header("Authorization", "Bearer " + token)
                .GET()
                .build());
    }

    private HttpResponse<String> basic(String login, String password) {
        Browser command = new Browser(port);
        String pair = Base64.getEncoder().encodeToString((login + ":" + password).getBytes());
        return command.send(command.request("/api/sites/" + site.code() + "/knock/officer")
                .header("Authorization", "Basic " + pair)
                .GET()
                .build());
    }

    /** A page without what differs by nature: its hidden tokens and the name in question. */
    private static String plain(HttpResponse<String> page, String name) {
        return page.body().replaceAll("value=\"[^\"]*\"", "").replace(name, "").strip();
    }
}
