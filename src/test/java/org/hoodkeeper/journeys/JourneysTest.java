package org.hoodkeeper.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.hoodkeeper.Hoodkeeper;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.database.TestDatabase;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;

/** The demo in real Chromium, as each of the three people, on a phone and on a desk; each page looked at with axe. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class JourneysTest {

    private static final int PHONE = 360;
    private static final int DESK = 1280;
    private static final int HEIGHT = 900;

    /** On a desk a table keeps the grounds of its heads and rows; these have every mark and ground that there is. */
    private static final Set<String> BY_COLOUR_ON_A_DESK = Set.of("/board", "/bench", "/tasks/T1/sheet", "/today");

    private ConfigurableApplicationContext service;
    private Chromium chromium;

    /** Who looks at pages stays signed in from one to the next. */
    private final Map<String, Page> looking = new HashMap<>();

    /** A service of its own on an empty database, as a first start finds it. */
    @BeforeAll
    void open() {
        Chromium.requireOrSkip();
        List<String> arguments = new ArrayList<>(List.of(TestDatabase.emptyAsArguments()));
        arguments.add("--hoodkeeper.demo=true");
        service = new SpringApplicationBuilder(Hoodkeeper.class).run(arguments.toArray(new String[0]));
        chromium = Chromium.open("http://127.0.0.1:" + service.getEnvironment().getProperty("local.server.port"));
    }

    @AfterAll
    void close() {
        if (chromium != null) {
            chromium.close();
        }
        if (service != null) {
            service.close();
        }
    }

    @ParameterizedTest
    @CsvSource({
        "officer, quarry-lantern-58, /board",
        "officer, quarry-lantern-58, /board?at=2026-01-05T06:00&known=then",
        "officer, quarry-lantern-58, /workers/W-009",
        "officer, quarry-lantern-58, /record",
        "officer, quarry-lantern-58, /decisions",
        "officer, quarry-lantern-58, /files",
        "officer, quarry-lantern-58, /models/H20/data",
        "store, copper-thimble-27, /bench",
        "store, copper-thimble-27, /sets/S-116",
        "store, copper-thimble-27, /sets/S-116/flow-check",
        "store, copper-thimble-27, /sets/S-116/examination",
        "store, copper-thimble-27, /sets/S-116/cleaning",
        "store, copper-thimble-27, /sets/S-116/battery-test",
        "store, copper-thimble-27, /sets/S-201/issue",
        "ana, willow-barrow-64, /today",
        "ana, willow-barrow-64, /today/check/S-101",
        "ana, willow-barrow-64, /today/defect/S-101",
        "ana, willow-barrow-64, /today/leave",
        "ana, willow-barrow-64, /workers/W-001/symptoms",
        "trainer, juniper-anvil-83, /workers/W-001/training",
        "trainer, juniper-anvil-83, /workers/W-001/fit-test",
        "health, saffron-gully-52, /outcomes",
        "health, saffron-gully-52, /workers/W-019/medical-outcome",
        "supervisor, granite-sparrow-46, /workers/W-001/posting",
        "hygienist, thistle-beacon-95, /tasks/T1/basis",
        "hygienist, thistle-beacon-95, /tasks/T1/exposure-result",
        "hygienist, thistle-beacon-95, /tasks",
        "hygienist, thistle-beacon-95, /tasks/T1/sheet",
        "hygienist, thistle-beacon-95, /tasks/T4/sheet",
        "hygienist, thistle-beacon-95, /tasks/T1/moved",
        "hygienist, thistle-beacon-95, /tasks/T1/round",
        "hygienist, thistle-beacon-95, /tasks/T1/plan",
        "officer, quarry-lantern-58, /indicators",
        "officer, quarry-lantern-58, /proof",
        "officer, quarry-lantern-58, /records",
        "officer, quarry-lantern-58, /findings",
        "officer, quarry-lantern-58, /incident",
        "officer, quarry-lantern-58, /trail",
        "officer, quarry-lantern-58, /verify",
        "officer, quarry-lantern-58, /retention",
        "officer, quarry-lantern-58, /legal-hold",
        "officer, quarry-lantern-58, /particulars",
        "officer, quarry-lantern-58, /recalls",
        "officer, quarry-lantern-58, /new-recall",
        "store, copper-thimble-27, /store",
        "store, copper-thimble-27, /ready",
        "store, copper-thimble-27, /wash",
        "store, copper-thimble-27, /stock",
        "store, copper-thimble-27, /examinations",
        "store, copper-thimble-27, /labels",
        "store, copper-thimble-27, /parts",
        "store, copper-thimble-27, /parts/life",
        "officer, quarry-lantern-58, /look-backs",
        "officer, quarry-lantern-58, /models/H20/guides",
        "officer, quarry-lantern-58, /models/H20/new-guide-step",
        "store, copper-thimble-27, /sets/S-111/flow",
        "store, copper-thimble-27, /sets/S-116/parts",
        "store, copper-thimble-27, /sets/S-116/part",
        "store, copper-thimble-27, /supplies/C-1",
        "store, copper-thimble-27, /instruments/FI-1",
        "admin, lichen-turbine-77, /accounts",
    })
    void everyPageIsGoodOnAPhoneAndOnADesk(String login, String password, String path) {
        Page page = looking.computeIfAbsent(login, any -> chromium.signedIn(PHONE, login, password));
        page.setViewportSize(PHONE, HEIGHT);
        page.navigate(chromium.at("/sites/ferrow" + path));
        assertThat(page.locator("h1").count()).as(page.url()).isPositive();
        chromium.isGood(page);
        // the same page, turned: no answer of the service depends on the width
        page.setViewportSize(DESK, HEIGHT);
        if (BY_COLOUR_ON_A_DESK.contains(path)) {
            chromium.isGood(page);
        } else {
            chromium.isGoodWithoutContrast(page);
        }
        chromium.nothingWasComplainedOf();
    }

    /** One page of each kind that a role can reach from its first page, and every link on them. */
    @ParameterizedTest
    @CsvSource({
        "officer, quarry-lantern-58",
        "store, copper-thimble-27",
        "ana, willow-barrow-64",
        "supervisor, granite-sparrow-46",
        "trainer, juniper-anvil-83",
        "health, saffron-gully-52",
        "hygienist, thistle-beacon-95",
        "employer, orchard-rivet-18",
        "admin, lichen-turbine-77",
    })
    void noLinkLeadsToARefusal(String login, String password) {
        Browser browser = new Browser(
                Integer.parseInt(Objects.requireNonNull(service.getEnvironment().getProperty("local.server.port"))));
        browser.signIn(login, password);
        Set<String> kinds = new HashSet<>();
        Deque<String> open = new ArrayDeque<>(List.of("/"));
        List<String> refused = new ArrayList<>();
        while (!open.isEmpty()) {
            String path = open.remove();
            HttpResponse<String> answer = browser.get(path);
            if (answer.statusCode() >= 400) {
                refused.add(answer.statusCode() + " " + path);
            }
            String next = Browser.target(answer);
            Stream.concat(next.isEmpty() ? Stream.empty() : Stream.of(next), links(answer.body()))
                    .filter(link -> kinds.add(kind(link)))
                    .forEach(open::add);
        }
        assertThat(kinds).as("pages of " + login).hasSizeGreaterThan(3);
        assertThat(refused).isEmpty();
    }

    private static final Pattern LINK = Pattern.compile("<a [^>]*href=\"(/[^\"#]*)\"");

    private static Stream<String> links(String page) {
        return LINK.matcher(page).results().map(found -> found.group(1).replace("&amp;", "&"));
    }

    /** The same for things of one sort: a path without the numbers in it, and the names of what is asked. */
    private static String kind(String link) {
        return link.replaceAll("=[^&]*", "=").replaceAll("[0-9a-f-]{36}|[A-Z]+-?[0-9]+[A-Z]?", "0");
    }

    @Test
    void theSignInPageIsGood() {
        Page page = chromium.visitor(PHONE, "es-ES");
        page.navigate(chromium.at("/sign-in"));
        chromium.isGood(page);
        assertThat(page.locator("html").getAttribute("lang")).isEqualTo("es");
        page.context().close();
    }

    @Test
    void theOfficerFindsWhoMustNotBeInThereAndWhy() {
        Page page = chromium.signedIn(DESK, "officer", "quarry-lantern-58");
        assertThat(page.locator("h1").innerText()).contains("must not be in there now");
        page.selectOption("#reason", "FIT_TEST");
        chromium.follow(page.locator(".filters button"));
        assertThat(page.locator("tbody tr").count()).isEqualTo(2);
        chromium.follow(page.locator("tbody a").first());
        assertThat(page.locator("h1").innerText()).isEqualTo("Hana Okoye may not do T4 with set S-108.");
        assertThat(page.locator("table").first().innerText())
                .contains("No fit test on M20/S/R1; there is one on M20/M/R1, which does not cover it.");
        page.context().close();
    }

    @Test
    void theStorekeeperTypesALabelAndRecordsAFlowCheck() {
        Page page = chromium.signedIn(PHONE, "store", "copper-thimble-27");
        page.locator("main input[type=text], main input[type=search]").first().fill("S-201");
        chromium.arrive(page, () -> page.keyboard().press("Enter"));
        assertThat(page.url()).endsWith("/sets/S-201");
        page.navigate(chromium.at("/sites/ferrow/sets/S-201/flow-check"));
        chromium.follow(page.locator("main form button[type=submit]").first());
        assertThat(page.title()).startsWith("Error");
        page.locator("input[name=instrument]").first().check();
        page.locator("input[name=reading]").fill("1750");
        chromium.follow(page.locator("main form button[type=submit]").first());
        assertThat(page.locator("input[name=reading]").inputValue()).isEqualTo("1750");
        page.locator("input[name=reading]").fill("191.5");
        chromium.follow(page.locator("main form button[type=submit]").first());
        assertThat(page.locator("main").innerText()).contains("191.5");
        chromium.follow(page.locator("button[value=record], main form button[type=submit]")
                .first());
        assertThat(page.locator("main").innerText()).contains("S-201");
        page.context().close();
    }

    @Test
    void theWorkerChecksTheSetGoesInAndComesOut() {
        Page page = chromium.signedIn(PHONE, "ana", "willow-barrow-64");
        assertThat(page.locator("h1").innerText()).startsWith("You may do T1 with set S-101 until ");
        chromium.follow(page.locator("a:has-text('Check set S-101 before use')").first());
        chromium.follow(page.locator("button[value=check]"));
        assertThat(page.title()).startsWith("Error");
        for (String item : List.of(
                "rightSet",
                "visor",
                "edgeSeal",
                "exhalationValve",
                "harness",
                "hose",
                "blower",
                "filter",
                "battery",
                "alarms",
                "placement")) {
            page.locator("input[name=" + item + "][value=PASS]").check();
        }
        page.locator("input[name=reading]").fill("190");
        page.locator("input[name=chargePercent]").fill("100");
        page.locator("input[name=indicator]").first().check();
        chromium.follow(page.locator("button[value=check]"));
        assertThat(page.locator("main").innerText()).contains("Good: you may put it on.");
        chromium.follow(page.locator("button[value=record]"));
        chromium.follow(page.locator("a:has-text('Go in to T1')"));
        assertThat(page.locator("h1").innerText()).startsWith("You may go in to T1 with set S-101 until ");
        chromium.isGood(page);
        chromium.follow(page.locator("main button.main"));
        assertThat(page.locator("h1").innerText()).startsWith("You are in T1 with set S-101 since ");
        chromium.isGood(page);
        chromium.follow(page.locator("a:has-text('I have come out')"));
        chromium.isGood(page);
        chromium.follow(page.locator("main button.main"));
        assertThat(page.locator("a.main").innerText()).isEqualTo("Check set S-101 before use");
        page.context().close();
    }

    @Test
    void aWorkerSeesNobodyElse() {
        Page page = chromium.signedIn(PHONE, "ana", "willow-barrow-64");
        assertThat(page.navigate(chromium.at("/sites/ferrow/workers/W-002")).status())
                .isEqualTo(404);
        assertThat(page.navigate(chromium.at("/sites/ferrow/board")).status()).isEqualTo(403);
        page.context().close();
    }

    /** Pictures for the README and for whoever wants to look; written where asked for. */
    @Test
    void picturesAreTakenWhereAskedFor() throws Exception {
        String folder = System.getProperty("hoodkeeper.tour");
        if (folder == null) {
            return;
        }
        Path tour = Files.createDirectories(Path.of(folder));
        for (int width : List.of(PHONE, DESK)) {
            picture(tour, "board", width, "officer", "quarry-lantern-58", "/board");
            picture(tour, "person", width, "officer", "quarry-lantern-58", "/workers/W-009");
            picture(tour, "bench", width, "store", "copper-thimble-27", "/bench");
            picture(tour, "set", width, "store", "copper-thimble-27", "/sets/S-116");
            picture(tour, "today", width, "ike", "harbour-cobble-71", "/today");
            whole(tour, "exposure-before", width, "/tasks/T1/sheet");
        }
        aSetIsDelivered();
        for (int width : List.of(PHONE, DESK)) {
            atTheStore(tour, "acceptance", width, "/sets/S-401/acceptance", null);
            atTheStore(tour, "battery", width, "/sets/S-116/battery-test", null);
            atTheStore(tour, "wash", width, "/wash", null);
            atTheStore(tour, "flow", width, "/sets/S-111/flow", null);
            atTheStore(tour, "parts", width, "/sets/S-124/parts", null);
            atTheStore(tour, "stock", width, "/stock", null);
            atTheStore(tour, "ready", width, "/ready", null);
            atTheStore(tour, "recall", width, "/recalls", "/recalls/");
            atTheStore(tour, "look-back", width, "/look-backs", "/look-backs/");
        }
        aHighResultIsTold();
        for (int width : List.of(PHONE, DESK)) {
            whole(tour, "exposure-after", width, "/tasks/T1/sheet");
            whole(tour, "exposure-moved", width, "/tasks/T1/moved");
            whole(tour, "plan", width, "/tasks/T1/plan");
            whole(tour, "indicators", width, "/indicators");
            plots(tour, width);
        }
    }

    /** @param of the first link whose address holds this is followed; none to stay */
    private void atTheStore(Path tour, String name, int width, String path, @Nullable String of) {
        Page page = chromium.signedIn(width, "store", "copper-thimble-27");
        page.navigate(chromium.at("/sites/ferrow" + path));
        if (of != null) {
            chromium.follow(page.locator("main a[href*='" + of + "']").first());
        }
        page.screenshot(
                new Page.ScreenshotOptions().setFullPage(true).setPath(tour.resolve(name + "-" + width + ".png")));
        page.context().close();
    }

    /** A box came: the set is taken in and waits for its acceptance. */
    private void aSetIsDelivered() {
        Page page = chromium.signedIn(DESK, "store", "copper-thimble-27");
        page.navigate(chromium.at("/sites/ferrow/new-set"));
        page.locator("input[name=label]").fill("S-401");
        if (page.locator("select[name=model]").count() == 1) {
            page.selectOption("select[name=model]", "H20");
        } else {
            page.locator("input[name=model][value=H20]").check();
        }
        page.locator("input[name=size]").fill("M");
        page.locator("input[name=sealRevision]").fill("R1");
        page.locator("input[name=delivery]").fill("DN-12");
        chromium.follow(page.locator("button[value=check]"));
        chromium.follow(page.locator("button[value=record]"));
        assertThat(page.locator("main").innerText()).contains("S-401");
        page.context().close();
    }

    /** 1.9 mg/m³, sampled ten days ago: 23.3 times the limit (SciPy 1.17.1: UTL 2.324); 20 falls short and 40 is enough. */
    private void aHighResultIsTold() {
        Page page = chromium.signedIn(DESK, "hygienist", "thistle-beacon-95");
        page.navigate(chromium.at("/sites/ferrow/tasks/T1/exposure-result"));
        page.locator("input[name=substance]").fill("respirable silica");
        page.locator("input[name=value]").fill("1.9");
        page.locator("input[name=unit]").fill("mg/m3");
        page.locator("input[name=minutes]").fill("430");
        page.locator("input[name=period][value=SHIFT]").check();
        page.locator("input[name=belowDetection][value=NO]").check();
        page.locator("input[name=at]")
                .fill(LocalDateTime.now(ZoneId.of("Europe/London"))
                        .minusDays(10)
                        .truncatedTo(ChronoUnit.MINUTES)
                        .toString());
        chromium.follow(page.locator("button[value=check]"));
        assertThat(page.locator("main").innerText()).contains("the air goes from 14.2 to 23.3 times its limit");
        chromium.follow(page.locator("button[value=record]"));
        page.context().close();
    }

    private void whole(Path tour, String name, int width, String path) {
        Page page = chromium.signedIn(width, "officer", "quarry-lantern-58");
        page.navigate(chromium.at("/sites/ferrow" + path));
        page.screenshot(
                new Page.ScreenshotOptions().setFullPage(true).setPath(tour.resolve(name + "-" + width + ".png")));
        page.context().close();
    }

    private void plots(Path tour, int width) {
        Page page = chromium.signedIn(width, "hygienist", "thistle-beacon-95");
        page.navigate(chromium.at("/sites/ferrow/tasks/T1/sheet"));
        page.locator(".plots")
                .first()
                .screenshot(new Locator.ScreenshotOptions().setPath(tour.resolve("exposure-plots-" + width + ".png")));
        page.context().close();
    }

    private void picture(Path tour, String name, int width, String login, String password, String path) {
        Page page = chromium.signedIn(width, login, password);
        page.navigate(chromium.at("/sites/ferrow" + path));
        page.screenshot(new Page.ScreenshotOptions().setPath(tour.resolve(name + "-" + width + ".png")));
        page.context().close();
    }
}
