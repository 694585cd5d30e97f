package org.hoodkeeper.web.record;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.Lateness;
import org.hoodkeeper.web.PageAddress;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** The records that the reader may open, to search and to page through: the way to every correction. */
@Controller
class RecordsController {

    /** Whether one is late is measured day by day, so that no more than these are looked through. */
    private static final int MOST_MEASURED = 5_000;

    private static final int ROWS = 100;
    private static final Duration BACK = Duration.ofDays(92);
    /** What is still to come belongs to the list: bookings, postings, limits. */
    private static final Instant END = Instant.parse("9999-12-31T00:00:00Z");

    private final History history;
    private final Lateness lateness;
    private final Names names;
    private final Sheets sheets;
    private final Words words;
    private final AuditTrail audit;
    private final Refusals refusals;

    RecordsController(
            History history,
            Lateness lateness,
            Names names,
            Sheets sheets,
            Words words,
            AuditTrail audit,
            Refusals refusals) {
        this.history = history;
        this.lateness = lateness;
        this.names = names;
        this.sheets = sheets;
        this.words = words;
        this.audit = audit;
        this.refusals = refusals;
    }

    /** @param late days late; 0 when told in time */
    public record Line(
            History.Version version,
            String kind,
            String about,
            @Nullable String with,
            long late) {}

    @Allowed({Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST})
    @GetMapping("/sites/{site}/records")
    String show(Visit visit, @ModelAttribute("asked") RecordsForm asked, BindingResult shape, Model page) {
        Set<Kind> kinds = kinds(visit);
        // a choice that could not be read leaves the model without its form
        page.addAttribute("asked", asked);
        Names.Book book = names.of(visit);
        LocalDate firstDay = refusals.day(asked.from(), shape, "from");
        LocalDate lastDay = refusals.day(asked.until(), shape, "until");
        String about = asked.about() == null || asked.about().isBlank() ? null : asked.about();
        Instant now = sheets.now();
        Instant begin = firstDay != null
                ? Days.startOf(firstDay, visit.zone())
                : about != null ? Instant.EPOCH : now.minus(BACK);
        History.Search search = new History.Search(
                kinds.stream().filter(asked::isOf).toList(),
                about == null ? null : book.called(about),
                begin,
                lastDay == null ? END : Days.endOf(lastDay, visit.zone()),
                asked.of());
        Found found = asked.isLate() ? late(visit, search, now, asked) : any(visit, search, now, asked);
        List<Line> shown = found.page().stream()
                .filter(version -> Sight.of(visit.viewer(), version))
                .map(version -> line(visit, version, found.late(version), book))
                .toList();
        audit.seen(visit.viewer(), persons(shown, book), "records");
        int until = (asked.number() - 1) * ROWS + shown.size();
        page.addAttribute("lines", shown);
        page.addAttribute("found", found.all());
        page.addAttribute("cut", found.isCut());
        page.addAttribute("begin", firstDay == null && about == null ? begin : null);
        page.addAttribute("shown", until);
        page.addAttribute("next", until < found.all() && !shown.isEmpty() ? next(visit, asked) : null);
        page.addAttribute(
                "kinds",
                kinds.stream()
                        .sorted(Comparator.comparing(kind -> words.say(Words.kindKey(kind))))
                        .toList());
        return "record/records";
    }

    /** @param isCut whether there may be more than was looked through */
    private record Found(List<History.Version> page, int all, boolean isCut, Lateness.Measure measure) {

        long late(History.Version version) {
            return version.told().corrects() == null ? measure.days(version.kind(), version.told()) : 0;
        }
    }

    private Found any(Visit visit, History.Search search, Instant now, RecordsForm asked) {
        SiteId site = visit.viewer().site();
        return new Found(
                history.search(site, search, now, (asked.number() - 1) * ROWS, ROWS),
                history.count(site, search, now),
                false,
                lateness.of(site));
    }

    private Found late(Visit visit, History.Search search, Instant now, RecordsForm asked) {
        SiteId site = visit.viewer().site();
        List<History.Version> measured = history.search(site, search, now, 0, MOST_MEASURED);
        Found all = new Found(List.of(), 0, measured.size() == MOST_MEASURED, lateness.of(site));
        List<History.Version> late =
                measured.stream().filter(version -> all.late(version) > 0).toList();
        int first = Math.min(late.size(), (asked.number() - 1) * ROWS);
        return new Found(
                late.subList(first, Math.min(late.size(), first + ROWS)), late.size(), all.isCut(), all.measure());
    }

    private static String next(Visit visit, RecordsForm asked) {
        return PageAddress.of(visit, "/records")
                .with("kind", asked.kind())
                .with("only", asked.only())
                .with("about", asked.about())
                .with("from", asked.from())
                .with("until", asked.until())
                .with("page", asked.number() + 1)
                .toString();
    }

    private static Set<WorkerId> persons(List<Line> lines, Names.Book book) {
        return lines.stream()
                .map(line -> line.version().told().subject())
                .filter(book::isPerson)
                .map(WorkerId::new)
                .collect(Collectors.toSet());
    }

    private Line line(Visit visit, History.Version version, long late, Names.Book book) {
        UUID subject = version.told().subject();
        String about = subject.equals(visit.viewer().site().value()) ? visit.siteName() : book.of(subject);
        UUID item = version.told().item();
        String with = item == null ? version.told().scope() : book.find(item);
        return new Line(version, words.say(Words.kindKey(version.kind())), about, with, late);
    }

    /** Kinds of which the reader may open all. */
    private static Set<Kind> kinds(Visit visit) {
        EnumSet<Kind> kinds = EnumSet.noneOf(Kind.class);
        Stream.of(Kind.values())
                .filter(kind -> Sight.ofKind(visit.viewer(), kind))
                .forEach(kinds::add);
        return kinds;
    }
}
