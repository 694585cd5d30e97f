package org.hoodkeeper.demo;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.NewAccount;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.StartNotice;
import org.hoodkeeper.exchange.FileKind;
import org.hoodkeeper.exchange.ImportJob;
import org.hoodkeeper.exchange.Imports;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.core.io.ClassPathResource;
import org.springframework.stereotype.Component;

/**
 * The demo: two invented sites, brought in by file, and somebody for each role. Laid once, at the first start on a database
 * without accounts; only where {@code hoodkeeper.demo} asks for it, which the embedded database does by itself.
 */
@Component
@ConditionalOnProperty("hoodkeeper.demo")
class DemoSites implements ApplicationRunner, StartNotice {

    private static final Duration LONGEST = Duration.ofMinutes(5);

    private static final AccountId LOADER = new AccountId(new UUID(0, 1));

    private final SiteRegister sites;
    private final Accounts accounts;
    private final People people;
    private final Imports imports;
    private final DemoStore store;
    private final Clock clock;

    DemoSites(SiteRegister sites, Accounts accounts, People people, Imports imports, DemoStore store, Clock clock) {
        this.sites = sites;
        this.accounts = accounts;
        this.people = people;
        this.imports = imports;
        this.store = store;
        this.clock = clock;
    }

    @Override
    public void run(ApplicationArguments arguments) throws IOException {
        if (accounts.none() && sites.find("ferrow").isEmpty()) {
            Site ferrow = lay("ferrow", "Ferrow Works", ZoneId.of("Europe/London"), "uk");
            try (SiteBinding.Bound bound = SiteBinding.bind(ferrow.id())) {
                store.lay(ferrow.id(), ferrow.zone(), LOADER);
            }
            lay("pine", "Pine Basin", ZoneId.of("America/Denver"), "us-federal");
        }
    }

    private Site lay(String code, String name, ZoneId zone, String ruleSet) throws IOException {
        Site site = sites.open(code, name, zone, ruleSet);
        DemoDays days = new DemoDays(LocalDate.ofInstant(clock.instant(), zone), zone);
        try (SiteBinding.Bound bound = SiteBinding.bind(site.id())) {
            Viewer loader = new Viewer(site.id(), LOADER, allRoles(), null, null);
            for (FileKind kind : FileKind.values()) {
                ClassPathResource file = new ClassPathResource("demo-data/" + code + "/" + kind.slug() + ".csv");
                if (file.exists()) {
                    bring(loader, kind, days.dated(file.getContentAsString(StandardCharsets.UTF_8)));
                }
            }
            DemoPerson.EVERYONE.stream()
                    .filter(person -> person.site().equals(code))
                    .forEach(person -> accounts.layByOperator(
                            new NewAccount(person.login(), person.name(), List.of(grant(site, person))),
                            person.password()));
        }
        return site;
    }

    private static Set<Role> allRoles() {
        return EnumSet.allOf(Role.class);
    }

    private void bring(Viewer loader, FileKind kind, String file) {
        UUID job = imports.start(
                loader,
                kind,
                ImportJob.Aim.RECORD,
                kind.slug() + ".csv",
                new ByteArrayInputStream(file.getBytes(StandardCharsets.UTF_8)));
        ImportJob done = imports.await(loader, job, LONGEST);
        if (done.state() != ImportJob.State.RECORDED) {
            throw new IllegalStateException(
                    "The demo's " + kind.slug() + ".csv was not taken: " + done + " " + imports.refusals(loader, job));
        }
    }

    private RoleGrant grant(Site site, DemoPerson person) {
        String about = person.about() == null ? "" : person.about();
        return switch (person.role()) {
            case WORKER ->
                RoleGrant.worker(site.id(), people.byNumber(site.id(), about).id());
            case EMPLOYER -> RoleGrant.employer(site.id(), about);
            default -> RoleGrant.of(site.id(), person.role());
        };
    }

    @Override
    public List<String> lines(String address) {
        return Stream.concat(
                        Stream.of("Demo sign-ins (login, password, role, site):"),
                        DemoPerson.EVERYONE.stream()
                                .map(person -> String.format(
                                        "  %-14s %-22s %-14s %s",
                                        person.login(),
                                        person.password(),
                                        person.role().name().toLowerCase(java.util.Locale.ROOT),
                                        person.site())))
                .toList();
    }
}
