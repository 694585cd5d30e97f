package org.hoodkeeper.journeys;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.LoadState;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.Paths;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Assumptions;

/**
 * The system's own Chromium. Where there is none the journeys are skipped, with a line that says so; with
 * {@code HOODKEEPER_BROWSER=required} they fail instead.
 */
final class Chromium implements AutoCloseable {

    private static final Path PROGRAM = Paths.get("/usr/bin/chromium");

    private final Playwright playwright;
    private final Browser browser;
    private final String address;
    private final List<String> complaints = new ArrayList<>();

    private Chromium(String address) {
        this.address = address;
        this.playwright = Playwright.create(
                new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        this.browser = playwright
                .chromium()
                .launch(new BrowserType.LaunchOptions()
                        .setExecutablePath(PROGRAM)
                        .setArgs(List.of(
                                "--no-sandbox",
                                "--disable-gpu",
                                "--disable-quic",
                                "--no-first-run",
                                "--disable-background-networking",
                                "--disable-component-update",
                                "--disable-sync")));
    }

    static void requireOrSkip() {
        boolean there = Files.isExecutable(PROGRAM);
        if (!there && "required".equals(System.getenv("HOODKEEPER_BROWSER"))) {
            throw new AssertionError("HOODKEEPER_BROWSER=required, and there is no " + PROGRAM);
        }
        Assumptions.assumeTrue(there, "journeys skipped: there is no " + PROGRAM);
    }

    static Chromium open(String address) {
        return new Chromium(address);
    }

    /** A new visitor, with a screen of that width; everything the page's console complains of is kept. */
    Page visitor(int width, String language) {
        BrowserContext context = browser.newContext(
                new Browser.NewContextOptions().setViewportSize(width, 900).setLocale(language));
        // handed to the browser once for every page of the visit: sent page by page it takes longer than it runs
        context.addInitScript(AxeBuilder.getAxeScript());
        Page page = context.newPage();
        page.onConsoleMessage(message -> {
            // a page that is refused on purpose is no complaint; a missing part of a page, or broken rules, are
            boolean refused = message.text().contains("responded with a status of 4");
            if (message.type().equals("error") && !refused) {
                complaints.add(page.url() + ": " + message.text());
            }
        });
        page.onPageError(error -> complaints.add(page.url() + ": " + error));
        return page;
    }

    Page signedIn(int width, String login, String password) {
        Page page = visitor(width, "en-GB");
        page.navigate(address + "/sign-in");
        page.locator("input[name=login], input[name=username]").first().fill(login);
        page.locator("input[type=password]").fill(password);
        follow(page.locator("main button[type=submit]").first());
        assertThat(page.url()).as("signed in as " + login).doesNotContain("/sign-in");
        return page;
    }

    /** Presses what leads to another page and waits until all of that page is there. */
    void follow(Locator link) {
        arrive(link.page(), link::click);
    }

    /**
     * Does what leads to another page and waits until all of that page is there. A press alone comes back as soon as the first
     * bytes arrive, when a table may have but one of its rows. The page that is left carries a mark; the new one does not.
     */
    void arrive(Page page, Runnable leading) {
        page.evaluate("document.documentElement.dataset.left = ''");
        leading.run();
        page.locator("html:not([data-left])")
                .waitFor(new Locator.WaitForOptions().setState(WaitForSelectorState.ATTACHED));
        page.waitForLoadState(LoadState.LOAD);
    }

    String at(String path) {
        return address + path;
    }

    /**
     * No breach of WCAG 2.2 AA that axe can see, and nothing wider than the screen but a table's own region. Axe is asked in the
     * page itself, which has no frames, and for breaches alone: the builder's way loads it twice and opens a page for each answer.
     */
    void isGood(Page page) {
        isGood(page, List.of());
    }

    /**
     * The same without the contrast of every word, which takes most of the time: for a page that was looked at before on another
     * screen. Colours are properties whose pairs {@code ContrastTest} holds against each other.
     */
    void isGoodWithoutContrast(Page page) {
        isGood(page, List.of("color-contrast"));
    }

    private void isGood(Page page, List<String> without) {
        // a button that sticks to the bottom edge covers what is below it until one scrolls there
        page.evaluate("window.scrollTo(0, document.body.scrollHeight)");
        Object found = page.evaluate("""
                async without => (await axe.run(document, {
                    runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
                    rules: Object.fromEntries(without.map(rule => [rule, { enabled: false }])),
                    resultTypes: ['violations']
                })).violations.map(rule =>
                    rule.id + ': ' + rule.help + ' ' + rule.nodes.slice(0, 3).map(node => node.html).join(' '))""", without);
        assertThat((List<?>) found).as(page.url()).isEmpty();
        fits(page);
    }

    /** Nothing is wider than the screen but a table's own region. */
    void fits(Page page) {
        Object overflow = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
        assertThat(((Number) overflow).intValue())
                .as("sideways scroll of " + page.url())
                .isLessThanOrEqualTo(0);
    }

    void nothingWasComplainedOf() {
        assertThat(complaints).isEmpty();
    }

    @Override
    public void close() {
        browser.close();
        playwright.close();
    }
}
