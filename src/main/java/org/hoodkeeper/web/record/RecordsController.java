package org.hoodkeeper.web.record;

import java.util.ArrayList;
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
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.Lateness;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** The newest records that the reader may open: the way to every correction. */
@Controller
class RecordsController {

    private static final int MOST = 1_000;
    private static final int SHOWN = 100;

    private final History history;
    private final Lateness lateness;
    private final Names names;
    private final Sheets sheets;
    private final Words words;
    private final AuditTrail audit;

    RecordsController(History history, Lateness lateness, Names names, Sheets sheets, Words words, AuditTrail audit) {
        this.history = history;
        this.lateness = lateness;
        this.names = names;
        this.sheets = sheets;
        this.words = words;
        this.audit = audit;
    }

    /** @param late days late; 0 when told in time */
    record Line(
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
        List<Line> lines = lines(visit, asked, kinds);
        List<Line> shown = lines.subList(0, Math.min(SHOWN, lines.size()));
        audit.seen(visit.viewer(), persons(shown), "records");
        page.addAttribute("lines", shown);
        page.addAttribute("found", lines.size());
        page.addAttribute(
                "kinds",
                kinds.stream()
                        .sorted(Comparator.comparing(kind -> words.say(Words.kindKey(kind))))
                        .toList());
        return "record/records";
    }

    private List<Line> lines(Visit visit, RecordsForm asked, Set<Kind> kinds) {
        List<Kind> wanted = kinds.stream().filter(asked::isOf).toList();
        Lateness.Measure measure = lateness.of(visit.viewer().site());
        Names.Book book = names.of(visit);
        List<Line> lines = new ArrayList<>();
        for (History.Version version : history.of(visit.viewer().site(), wanted, sheets.now(), MOST)) {
            long late = version.told().corrects() == null ? measure.days(version.kind(), version.told()) : 0;
            boolean wantedSo = (!asked.isLate() || late > 0) && (!asked.isReplaced() || version.replacedBy() != null);
            if (wantedSo && !version.withdrawal() && Sight.of(visit.viewer(), version)) {
                lines.add(line(visit, version, late, book));
            }
        }
        return lines;
    }

    private static Set<WorkerId> persons(List<Line> lines) {
        return lines.stream()
                .filter(line -> line.version().kind().subject() == Subject.WORKER)
                .map(line -> new WorkerId(line.version().told().subject()))
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
