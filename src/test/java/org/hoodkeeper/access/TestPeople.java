package org.hoodkeeper.access;

import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.boot.test.context.TestComponent;

/** Sites and people of a test; each call makes new ones, since tests share one database. */
@TestComponent
public class TestPeople {

    public static final String PASSWORD = "three quiet herons wait";

    private final SiteRegister sites;
    private final Accounts accounts;
    private final People workers;

    TestPeople(SiteRegister sites, Accounts accounts, People workers) {
        this.sites = sites;
        this.accounts = accounts;
        this.workers = workers;
    }

    /** An account that signs in by {@link #PASSWORD}. */
    public record Person(AccountId id, String login, String name) {}

    public Site site() {
        return sites.open("s" + unique(), "Site " + unique(), ZoneId.of("Europe/London"), "uk");
    }

    public Person person(Site site, Role... roles) {
        return person(Stream.of(roles).map(role -> grant(site.id(), role)).toList());
    }

    public Person person(List<RoleGrant> grants) {
        String login = "p" + unique();
        AccountId id = accounts.layByOperator(new NewAccount(login, "Person " + login, grants), PASSWORD);
        return new Person(id, login, "Person " + login);
    }

    public Viewer viewer(Site site, Person person) {
        return accounts.viewer(site.id(), person.id()).orElseThrow();
    }

    /** Works on a site as a page of it does. */
    public void on(Site site, Runnable work) {
        SiteBinding.run(site.id(), work);
    }

    public RoleGrant grant(SiteId site, Role role) {
        return switch (role) {
            case WORKER -> RoleGrant.worker(site, worker(site));
            case EMPLOYER -> RoleGrant.employer(site, "Invented Stoneworks");
            default -> RoleGrant.of(site, role);
        };
    }

    /** Somebody new on the site's list. */
    public WorkerId worker(SiteId site) {
        return SiteBinding.in(site, () -> workers.register(site, "W-" + unique(), "Worker " + unique(), null));
    }

    public static String unique() {
        return UUID.randomUUID().toString().substring(24);
    }
}
