package org.hoodkeeper.web.oversight;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Finding;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.Findings;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.PageAddress;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** What went wrong and is not closed: control failures and protection gaps, with who answers for each and until when. */
@Controller
class FindingsController {

    private static final int ROWS = 50;
    private static final Duration BACK = Duration.ofDays(92);

    /** As many wears as somebody who waits for the page can wait for. */
    private static final int JUDGED_AT_ONCE = 60;

    private final Findings findings;
    private final Names names;
    private final Accounts accounts;
    private final Sheets sheets;
    private final Words words;
    private final Refusals refusals;
    private final AuditTrail audit;

    FindingsController(
            Findings findings,
            Names names,
            Accounts accounts,
            Sheets sheets,
            Words words,
            Refusals refusals,
            AuditTrail audit) {
        this.findings = findings;
        this.names = names;
        this.accounts = accounts;
        this.sheets = sheets;
        this.words = words;
        this.refusals = refusals;
        this.audit = audit;
    }

    /** A finding in words. */
    public record Line(Findings.Found found, String number, String who, String worn, String barred) {}

    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/findings")
    String show(Visit visit, @ModelAttribute("asked") FindingsForm asked, BindingResult shape, Model page) {
        Instant now = sheets.now();
        LocalDate firstDay = refusals.day(asked.from(), shape, "from");
        LocalDate lastDay = refusals.day(asked.until(), shape, "until");
        Instant from = firstDay == null ? now.minus(BACK) : Days.startOf(firstDay, visit.zone());
        Instant until = lastDay == null ? now.plusSeconds(1) : Days.endOf(lastDay, visit.zone());
        Findings.All all = findings.of(visit.viewer().site(), from, until, JUDGED_AT_ONCE);
        Names.Book book = names.of(visit);
        List<Findings.Found> fitting =
                all.found().stream().filter(found -> asked.fits(found, book)).toList();
        int first = Math.min(fitting.size(), (asked.number() - 1) * ROWS);
        int last = Math.min(fitting.size(), first + ROWS);
        page.addAttribute("from", from);
        audit.seen(
                visit.viewer(),
                fitting.subList(first, last).stream()
                        .map(found -> found.worn().worker())
                        .collect(Collectors.toSet()),
                "findings");
        page.addAttribute(
                "lines",
                fitting.subList(first, last).stream()
                        .map(found -> line(found, book))
                        .toList());
        page.addAttribute("names", book);
        page.addAttribute("fitting", fitting.size());
        page.addAttribute("shown", last);
        page.addAttribute("next", last < fitting.size() ? next(visit, asked) : null);
        page.addAttribute(
                "open", all.found().stream().filter(found -> !found.isClosed()).count());
        page.addAttribute(
                "overdue",
                all.found().stream()
                        .filter(found -> found.state() == Findings.State.OVERDUE)
                        .count());
        page.addAttribute("notJudged", all.notJudged());
        page.addAttribute("sorts", Finding.Sort.values());
        page.addAttribute("states", Findings.State.values());
        page.addAttribute(
                "owners",
                accounts.on(visit.viewer().site()).stream()
                        .map(line -> Choice.named(line.id().toString(), line.name()))
                        .toList());
        return "oversight/findings";
    }

    private Line line(Findings.Found found, Names.Book book) {
        return new Line(
                found,
                book.number(found.worn().worker()),
                book.of(found.worn().worker()),
                words.say(
                        "findings.with",
                        book.of(found.worn().task()),
                        book.of(found.worn().set())),
                found.barred().stream()
                        .map(kind -> words.say("kinds.RequirementKind." + kind))
                        .collect(Collectors.joining(", ")));
    }

    private static String next(Visit visit, FindingsForm asked) {
        return PageAddress.of(visit, "/findings")
                .with("sort", asked.sort())
                .with("state", asked.state())
                .with("who", asked.who())
                .with("owner", asked.owner())
                .with("from", asked.from())
                .with("until", asked.until())
                .with("page", asked.number() + 1)
                .toString();
    }
}
