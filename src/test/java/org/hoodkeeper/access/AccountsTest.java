package org.hoodkeeper.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.hoodkeeper.access.TestPeople.Person;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;

@OverHttp
class AccountsTest {

    @Autowired
    TestPeople people;

    @Autowired
    Accounts accounts;

    @Autowired
    SecondPerson secondPerson;

    @Autowired
    PasswordLinks links;

    @Autowired
    CommandTokens tokens;

    @Autowired
    SignIn signIn;

    @Autowired
    JdbcClient jdbc;

    Site site;
    Viewer administrator;
    Viewer officer;
    SiteBinding.Bound bound;

    @BeforeEach
    void aSiteWithAnAdministratorAndAnOfficer() {
        site = people.site();
        administrator = people.viewer(site, people.person(site, Role.ADMINISTRATOR));
        officer = people.viewer(site, people.person(site, Role.OFFICER));
        bound = SiteBinding.bind(site.id());
    }

    @AfterEach
    void leaveTheSite() {
        bound.close();
    }

    @Test
    void theHealthRoleIsHeldOnlyAfterASecondPersonConfirmed() {
        AccountId added = add(Role.HEALTH);
        assertThat(accounts.viewer(site.id(), added)).isEmpty();
        UUID request = secondPerson.open(site.id()).get(0).id();
        refused("access.request.samePerson", () -> secondPerson.confirm(request, administrator));
        String secret = secondPerson.confirm(request, officer);
        assertThat(accounts.viewer(site.id(), added).orElseThrow().roles()).containsExactly(Role.HEALTH);
        assertThat(links.isOpen(secret)).isTrue();
        refused("access.request.unknown", () -> secondPerson.confirm(request, officer));
    }

    @Test
    void noRoleButOfficerAndAdministratorConfirms() {
        add(Role.HEALTH);
        UUID request = secondPerson.open(site.id()).get(0).id();
        Viewer storekeeper = people.viewer(site, people.person(site, Role.STOREKEEPER));
        refused("access.request.notYours", () -> secondPerson.confirm(request, storekeeper));
        refused("access.request.notYours", () -> secondPerson.decline(request, storekeeper));
    }

    @Test
    void nobodyConfirmsTheirOwnHealthRole() {
        accounts.give(officer.account(), RoleGrant.of(site.id(), Role.HEALTH), administrator);
        UUID request = secondPerson.open(site.id()).get(0).id();
        refused("access.request.samePerson", () -> secondPerson.confirm(request, officer));
    }

    /** Else the administrator would choose the password first and have the account raised afterwards. */
    @Test
    void whatTheAdministratorPreparedIsWorthNothingAfterConfirming() {
        AccountId added = add(Role.STOREKEEPER);
        String first = links.make(added, administrator).orElseThrow();
        String login = links.choose(first, "a password known to me");
        String second = links.make(added, administrator).orElseThrow();
        accounts.give(added, RoleGrant.of(site.id(), Role.HEALTH), administrator);
        secondPerson.confirm(secondPerson.open(site.id()).get(0).id(), officer);
        assertThatThrownBy(() -> signIn.attempt(login, "a password known to me", new SignIn.Place("10.0.0.7", null)))
                .hasMessageContaining("not accepted");
        assertThat(links.isOpen(second)).isFalse();
    }

    @Test
    void aPasswordOfTheHealthRoleIsNotRenewedByTheAdministratorAlone() {
        Person health = people.person(site, Role.HEALTH);
        assertThat(links.make(health.id(), administrator)).isEmpty();
        assertThat(secondPerson.open(site.id()))
                .singleElement()
                .satisfies(one -> assertThat(one.asks()).isEqualTo(SecondPerson.Asks.PASSWORD_LINK));
        refused("access.request.open", () -> links.make(health.id(), administrator));
        String secret = secondPerson.confirm(secondPerson.open(site.id()).get(0).id(), officer);
        assertThat(links.choose(secret, "another word entirely")).isEqualTo(health.login());
    }

    @Test
    void healthAndAdministratorDoNotGoTogether() {
        Person health = people.person(site, Role.HEALTH);
        refused(
                "access.grant.healthAndAdministrator",
                () -> accounts.give(health.id(), RoleGrant.of(site.id(), Role.ADMINISTRATOR), administrator));
        Person second = people.person(site, Role.ADMINISTRATOR);
        refused(
                "access.grant.healthAndAdministrator",
                () -> accounts.give(second.id(), RoleGrant.of(site.id(), Role.HEALTH), administrator));
    }

    @Test
    void nobodyGivesThemselfARole() {
        refused(
                "access.grant.yourself",
                () -> accounts.give(administrator.account(), RoleGrant.of(site.id(), Role.OFFICER), administrator));
        assertThat(accounts.viewer(site.id(), administrator.account())
                        .orElseThrow()
                        .is(Role.OFFICER))
                .isFalse();
    }

    @Test
    void theLastAdministratorStays() {
        refused(
                "access.lastAdministrator",
                () -> accounts.take(administrator.account(), Role.ADMINISTRATOR, administrator));
        refused("access.account.yourself", () -> accounts.disable(administrator.account(), administrator));
        Person second = people.person(site, Role.ADMINISTRATOR);
        accounts.take(second.id(), Role.ADMINISTRATOR, administrator);
        assertThat(accounts.viewer(site.id(), second.id())).isEmpty();
    }

    @Test
    void anAccountWithRolesElsewhereIsOutOfOneAdministratorsReach() {
        Site other = people.site();
        Person person =
                people.person(List.of(RoleGrant.of(site.id(), Role.OFFICER), RoleGrant.of(other.id(), Role.OFFICER)));
        refused("access.account.otherSites", () -> accounts.disable(person.id(), administrator));
        refused("access.account.otherSites", () -> links.make(person.id(), administrator));
        accounts.take(person.id(), Role.OFFICER, administrator);
        assertThat(accounts.viewer(site.id(), person.id())).isEmpty();
        assertThat(accounts.viewer(other.id(), person.id())).isPresent();
    }

    @Test
    void anAccountOfAnotherSiteIsUnknownHere() {
        Person elsewhere = people.person(people.site(), Role.OFFICER);
        refused("access.account.unknown", () -> accounts.disable(elsewhere.id(), administrator));
        refused("access.account.unknown", () -> links.make(elsewhere.id(), administrator));
        refused("access.account.unknown", () -> accounts.endSessions(elsewhere.id(), administrator));
        AccountId added =
                accounts.addKnown(elsewhere.login(), List.of(RoleGrant.of(site.id(), Role.TRAINER)), administrator);
        assertThat(added).isEqualTo(elsewhere.id());
        assertThat(accounts.viewer(site.id(), added).orElseThrow().roles()).containsExactly(Role.TRAINER);
    }

    @Test
    void aWorkerHasOneAccount() {
        WorkerId worker = people.worker(site.id());
        accounts.add(account(RoleGrant.worker(site.id(), worker)), administrator);
        refused(
                "access.grant.worker.taken",
                () -> accounts.add(account(RoleGrant.worker(site.id(), worker)), administrator));
    }

    @Test
    void nobodySignsInAsAWorkerWhoIsNotOnTheSitesList() {
        for (WorkerId stranger : List.of(
                new WorkerId(UUID.randomUUID()), people.worker(people.site().id()))) {
            assertThatThrownBy(() -> accounts.add(account(RoleGrant.worker(site.id(), stranger)), administrator))
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    @Test
    void whatIsRefusedLeavesNothingBehind() {
        NewAccount twice = new NewAccount(
                "h" + TestPeople.unique(),
                "Half Made",
                List.of(RoleGrant.of(site.id(), Role.OFFICER), RoleGrant.of(site.id(), Role.OFFICER)));
        refused("access.grant.held", () -> accounts.add(twice, administrator));
        assertThat(jdbc.sql("select count(*) from account where login = ?")
                        .param(twice.login())
                        .query(Integer.class)
                        .single())
                .isZero();
        refused(
                "access.grant.otherSite",
                () -> accounts.add(account(RoleGrant.of(people.site().id(), Role.OFFICER)), administrator));
    }

    @Test
    void aLinkWorksOnceAndStaysGoodAfterARefusedPassword() {
        AccountId added = add(Role.STOREKEEPER);
        String secret = links.make(added, administrator).orElseThrow();
        refused("password.short", () -> links.choose(secret, "short"));
        links.choose(secret, "herons over the weir");
        refused("access.link.spent", () -> links.choose(secret, "herons over the weir"));
    }

    @Test
    void aLinkEndsAfterAnHourAndWithTheNextOne() {
        AccountId added = add(Role.STOREKEEPER);
        String older = links.make(added, administrator).orElseThrow();
        String newer = links.make(added, administrator).orElseThrow();
        assertThat(links.isOpen(older)).isFalse();
        assertThat(links.isOpen(newer)).isTrue();
        assertThat(jdbc.sql(
                                "select extract(epoch from expires_at - made_at)::int from one_time_link where account_id = ?")
                        .param(added.value())
                        .query(Integer.class)
                        .single())
                .isEqualTo(3600);
        jdbc.sql("update one_time_link set expires_at = now() where account_id = ?")
                .param(added.value())
                .update();
        refused("access.link.spent", () -> links.choose(newer, "herons over the weir"));
    }

    @Test
    void noSecretIsKeptInClear() {
        AccountId added = add(Role.STOREKEEPER);
        String link = links.make(added, administrator).orElseThrow();
        String token = tokens.make("nightly", Set.of(Role.OFFICER), officer);
        String secret = token.substring(token.lastIndexOf('.') + 1);
        for (String table : List.of("one_time_link", "account_token", "audit_event", "service_audit_event")) {
            for (String clear : List.of(link, secret)) {
                assertThat(jdbc.sql("select count(*) from " + table + " t where t::text like ?")
                                .param("%" + clear + "%")
                                .query(Integer.class)
                                .single())
                        .isZero();
            }
        }
    }

    @Test
    void aTokenGivesNoRoleThatItsOwnerLacks() {
        refused("access.token.roles", () -> tokens.make("x", Set.of(Role.HEALTH), officer));
        refused("access.token.roles", () -> tokens.make("x", Set.of(), officer));
    }

    private AccountId add(Role role) {
        return accounts.add(account(RoleGrant.of(site.id(), role)), administrator);
    }

    private static NewAccount account(RoleGrant grant) {
        return new NewAccount("n" + TestPeople.unique(), "New Person", List.of(grant));
    }

    private static void refused(String code, ThrowingCallable work) {
        assertThatThrownBy(work)
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo(code));
    }
}
