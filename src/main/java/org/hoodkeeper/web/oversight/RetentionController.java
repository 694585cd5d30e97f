package org.hoodkeeper.web.oversight;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.LegalHolds;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.Erasures;
import org.hoodkeeper.oversight.Retentions;
import org.hoodkeeper.rules.Provenance;
import org.hoodkeeper.rules.RetentionRule;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Keeping;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** How long each kind of record is kept and by which rule, and what lies under a legal hold. */
@Controller
class RetentionController {

    private final Retentions retentions;
    private final LegalHolds holds;
    private final Erasures erasures;
    private final History history;
    private final Keeping keeping;
    private final Names names;
    private final Sheets sheets;
    private final Words words;

    RetentionController(
            Retentions retentions,
            LegalHolds holds,
            Erasures erasures,
            History history,
            Keeping keeping,
            Names names,
            Sheets sheets,
            Words words) {
        this.retentions = retentions;
        this.holds = holds;
        this.erasures = erasures;
        this.history = history;
        this.keeping = keeping;
        this.names = names;
        this.sheets = sheets;
        this.words = words;
    }

    /**
     * One rule for one kind of record; without a rule nobody says how long.
     *
     * @param erased the kind, where the reader may erase of it
     */
    public record Line(
            @Nullable Kind erased,
            String kind,
            @Nullable RetentionRule rule,
            @Nullable String howLong) {}

    /** An erasure that was done. @param provenance none where no rule set has that rule any more */
    public record Erased(
            Erasures.Done done,
            String kind,
            String by,
            @Nullable Provenance provenance) {}

    /** An open hold. */
    public record Held(
            String record,
            String on,
            Instant since,
            String by,
            @Nullable String reason) {}

    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/retention")
    String show(Visit visit, Model page) {
        SiteId site = visit.viewer().site();
        Instant now = sheets.now();
        page.addAttribute("ruleSet", retentions.ruleSet(site, now));
        page.addAttribute("lines", lines(visit.viewer(), retentions.rules(site, now)));
        page.addAttribute("holds", held(visit, now));
        page.addAttribute("erased", erased(visit, now));
        return "oversight/retention";
    }

    private List<Line> lines(Viewer viewer, List<RetentionRule> rules) {
        List<Line> lines = new ArrayList<>();
        for (Kind kind : Kind.values()) {
            String named = words.say(Words.kindKey(kind));
            List<RetentionRule> spoken =
                    rules.stream().filter(rule -> rule.kinds().contains(kind)).toList();
            spoken.forEach(rule -> lines.add(
                    new Line(Erasures.mayErase(viewer, kind) ? kind : null, named, rule, keeping.howLong(rule))));
            if (spoken.isEmpty()) {
                lines.add(new Line(null, named, null, null));
            }
        }
        lines.sort(
                Comparator.<Line, Boolean>comparing(line -> line.rule() == null).thenComparing(Line::kind));
        return lines;
    }

    private List<Erased> erased(Visit visit, Instant now) {
        Names.Book book = names.of(visit);
        return erasures.done(visit.viewer().site(), now).stream()
                .map(done -> new Erased(
                        done,
                        words.say(Words.kindKey(done.told().erased())),
                        book.account(done.by()),
                        retentions.provenance(done.told().rule())))
                .toList();
    }

    private List<Held> held(Visit visit, Instant now) {
        Names.Book book = names.of(visit);
        List<Held> held = new ArrayList<>();
        for (Told<LegalHold> hold : holds.open(visit.viewer().site())) {
            History.Version whole = history.find(visit.viewer().site(), hold.id(), now);
            if (whole != null && whole.told().fact() instanceof LegalHold said) {
                held.add(new Held(
                        hold.id().toString(),
                        on(visit, book, hold.subject()),
                        hold.from(),
                        book.account(whole.toldBy()),
                        said.reason()));
            }
        }
        return held;
    }

    private static String on(Visit visit, Names.Book book, UUID subject) {
        return subject.equals(visit.viewer().site().value()) ? visit.siteName() : book.of(subject);
    }
}
