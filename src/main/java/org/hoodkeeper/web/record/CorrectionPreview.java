package org.hoodkeeper.web.record;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.Consequences;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.hygienist.MovePreview;
import org.springframework.stereotype.Component;

/**
 * Says, before a correction or a withdrawal is recorded, whom it turns and what rested on the record. Asked inside the transaction
 * that tries it.
 */
@Component
class CorrectionPreview {

    /** As many of a sort as a check page names; the rest is counted. */
    private static final int NAMED = 10;

    private final Chains chains;
    private final Consequences consequences;
    private final Names names;
    private final MovePreview moves;
    private final Programme programme;
    private final Words words;
    private final Show show;

    CorrectionPreview(
            Chains chains,
            Consequences consequences,
            Names names,
            MovePreview moves,
            Programme programme,
            Words words,
            Show show) {
        this.chains = chains;
        this.consequences = consequences;
        this.names = names;
        this.moves = moves;
        this.programme = programme;
        this.words = words;
        this.show = show;
    }

    /**
     * @param old the record as it stood
     * @param trying just before the trial
     * @param from when what is stated begins to count; of a withdrawal when the record did
     */
    List<String> of(Visit visit, History.Version old, Instant trying, Instant from) {
        History.Version replaced = chains.again(visit, old);
        List<String> lines = new ArrayList<>();
        boolean isChange = replaced.replacedBy() == null;
        if (visit.viewer().isAny(Role.HYGIENIST, Role.OFFICER)) {
            History.Version next = isChange ? replaced : chains.newest(visit, replaced);
            Instant counts = isChange || from.isBefore(old.told().from())
                    ? from
                    : old.told().from();
            lines.addAll(moved(visit, old.kind(), old.told(), next.told(), trying, counts));
        }
        if (!isChange) {
            lines.addAll(rested(visit, replaced));
        }
        return lines;
    }

    /** Who is turned by another figure; only of what figures are made of. */
    private List<String> moved(Visit visit, Kind kind, Told<?> old, Told<?> next, Instant trying, Instant from) {
        return switch (kind) {
            case EXPOSURE_RESULT, TASK_BASIS -> {
                Set<String> codes = new LinkedHashSet<>();
                Stream.of(old, next)
                        .map(told -> programme
                                .task(visit.viewer().site(), new TaskId(told.subject()))
                                .code())
                        .forEach(codes::add);
                yield codes.stream()
                        .flatMap(code -> moves.ofTask(visit.viewer(), code, trying, from).stream())
                        .toList();
            }
            case LIMIT -> {
                Set<String> substances =
                        new LinkedHashSet<>(List.of(String.valueOf(old.scope()), String.valueOf(next.scope())));
                yield substances.stream()
                        .flatMap(one -> moves.ofLimit(visit.viewer(), one, trying, from).stream())
                        .toList();
            }
            default -> List.of();
        };
    }

    private List<String> rested(Visit visit, History.Version replaced) {
        Consequences.All all = consequences.of(visit.viewer(), replaced);
        if (all.isEmpty()) {
            return List.of(words.say("version.touched.nothing"));
        }
        Names.Book book = names.of(visit);
        List<String> lines = new ArrayList<>();
        add(
                lines,
                "assessments",
                all.assessments(),
                one -> words.say(
                        "version.assessment", book.of(one.task()), show.instant(one.from()), show.instant(one.told())));
        add(
                lines,
                "answers",
                all.answers(),
                one -> one.now() == null
                        ? words.say(
                                "correction.rested.given",
                                book.given(one),
                                show.instant(one.askedAt()),
                                verdict(one.then()))
                        : words.say(
                                "correction.rested.turns",
                                book.given(one),
                                show.instant(one.askedAt()),
                                verdict(one.then()),
                                verdict(one.now())));
        add(
                lines,
                "wears",
                all.wears(),
                one -> words.say(
                        "correction.rested.turns",
                        book.worn(one.worn()),
                        show.instant(one.worn().from()),
                        verdict(one.before()),
                        verdict(one.after())));
        if (all.notJudged() > 0) {
            lines.add(words.say("version.notJudged", all.notJudged()));
        }
        add(
                lines,
                "files",
                all.files(),
                one -> one.about() + ", " + words.say("version.file", show.instant(one.at()), book.account(one.by())));
        return lines;
    }

    private String verdict(Enum<?> verdict) {
        return words.say("verdict." + verdict.name());
    }

    private <T> void add(List<String> lines, String sort, List<T> all, Function<T, String> said) {
        if (all.isEmpty()) {
            return;
        }
        lines.add(words.say("correction.rested." + sort, all.size()));
        all.stream().limit(NAMED).map(said).forEach(lines::add);
        if (all.size() > NAMED) {
            lines.add(words.say("correction.rested.more", all.size() - NAMED));
        }
    }
}
