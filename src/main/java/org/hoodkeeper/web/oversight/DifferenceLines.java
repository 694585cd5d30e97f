package org.hoodkeeper.web.oversight;

import java.util.List;
import java.util.UUID;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.Differences;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.record.Sight;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What differs between then and now, in the reader's words: for the fragment {@code fragments/difference}. */
@Component
public class DifferenceLines {

    private final Names names;
    private final Words words;

    DifferenceLines(Names names, Words words) {
        this.names = names;
        this.words = words;
    }

    /** @param record to open it; none where this reader may not */
    public record Line(
            @Nullable String record,
            String kind,
            String what,
            String about,
            String when,
            String told,
            String by,
            long late) {}

    /** @param then none where it was not judged then */
    public record Turned(
            String who,
            String number,
            String task,
            @Nullable Verdict then,
            @Nullable Verdict now) {}

    public record Shown(List<String> rules, List<Line> lines, boolean more, List<Turned> turned) {

        public boolean isEmpty() {
            return rules.isEmpty() && lines.isEmpty() && turned.isEmpty();
        }
    }

    public Shown of(Visit visit, Differences.All all) {
        Names.Book book = names.of(visit);
        return new Shown(
                all.rules().stream()
                        .map(given -> words.say("difference.rules", given.code() + " " + given.version(), given.at()))
                        .toList(),
                all.changes().stream().map(change -> line(visit, change, book)).toList(),
                all.more(),
                all.flips().stream()
                        .map(flip -> new Turned(
                                flip.worker().name(), flip.worker().number(), flip.task(), flip.then(), flip.now()))
                        .toList());
    }

    private Line line(Visit visit, Differences.Change change, Names.Book book) {
        History.Version version = change.version();
        UUID subject = version.told().subject();
        String what = version.withdrawal() ? "WITHDRAWN" : change.isCorrection() ? "CORRECTED" : "TOLD";
        return new Line(
                Sight.of(visit.viewer(), version) ? version.told().id().toString() : null,
                words.say(Words.kindKey(version.kind())),
                words.say("difference.what." + what),
                subject.equals(visit.viewer().site().value()) ? visit.siteName() : book.of(subject),
                words.say("difference.at", version.told().from()),
                words.say("difference.at", version.told().recordedAt()),
                book.account(version.toldBy()),
                change.late());
    }
}
