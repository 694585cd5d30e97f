package org.hoodkeeper.web.hygienist;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.BasisMove;
import org.hoodkeeper.reporting.BasisMoves;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Says, before a result, a limit or an assessment is recorded, whom it will turn. */
@Component
public class MovePreview {

    private final BasisMoves moves;
    private final TaskSheets sheets;
    private final KnowledgeClock clock;
    private final Words words;
    private final Show show;
    private final SheetWords sheetWords;

    MovePreview(
            BasisMoves moves, TaskSheets sheets, KnowledgeClock clock, Words words, Show show, SheetWords sheetWords) {
        this.sheets = sheets;
        this.clock = clock;
        this.sheetWords = sheetWords;
        this.moves = moves;
        this.words = words;
        this.show = show;
    }

    /** @param told just before it is told @param from when it begins to count */
    public List<String> ofTask(Viewer viewer, String code, Instant told, Instant from) {
        List<String> lines = new ArrayList<>(of(moves.preview(viewer, code, told, from)));
        when(from, told, lines);
        return lines;
    }

    /** As {@link #ofTask}, and before it what is stated of each substance beside what the results on record say of it. */
    List<String> ofAssessment(Viewer viewer, String code, Instant told, Instant from) {
        Instant now = clock.now();
        Instant at = from.equals(told) ? now : from;
        TaskSheet sheet = sheets.of(viewer.site(), code, new Moment(at, now, Moment.View.AS_KNOWN_NOW));
        List<String> lines = new ArrayList<>(sheetWords.beside(sheet));
        lines.addAll(ofTask(viewer, code, told, from));
        return lines;
    }

    public List<String> ofLimit(Viewer viewer, String substance, Instant told, Instant from) {
        List<BasisMove> found = moves.previewLimit(viewer, substance, told, from);
        if (found.isEmpty()) {
            return List.of(words.say("basisMove.preview.noTask"));
        }
        List<String> lines = new ArrayList<>();
        found.forEach(move -> lines.addAll(of(move)));
        when(from, told, lines);
        return lines;
    }

    private void when(Instant from, Instant told, List<String> lines) {
        if (from.isAfter(told)) {
            lines.add(words.say("basisMove.preview.from", show.instant(from)));
        }
    }

    private List<String> of(BasisMove move) {
        String task = move.sheet().task();
        String before = ratio(move.before().ratio());
        String after = ratio(move.sheet().ratio());
        List<String> lines = new ArrayList<>();
        lines.add(
                before.equals(after)
                        ? words.say("basisMove.preview.same", task, after)
                        : words.say("basisMove.preview.air", task, before, after));
        lines.add(required(move));
        move.sheet().unjudged().stream()
                .filter(one -> !move.before().unjudged().contains(one))
                .map(sheetWords::unjudged)
                .forEach(lines::add);
        if (move.sheet().enough().isEmpty()) {
            lines.add(words.say("basisMove.preview.noModel", task));
        }
        lines.add(
                move.turned().isEmpty()
                        ? words.say(
                                move.isAnybodyJudged()
                                        ? "basisMove.preview.none"
                                        : move.otherwise() == 0
                                                ? "basisMove.preview.empty"
                                                : "basisMove.preview.nobody",
                                task,
                                move.otherwise())
                        : words.say(
                                "basisMove.preview.turned",
                                task,
                                names(move.turned().stream()
                                        .map(BasisMove.Turned::row)
                                        .toList())));
        for (BasisMove.Turned turned : move.turned()) {
            if (!turned.ways().isEmpty()) {
                lines.add(words.say(
                        "basisMove.preview.ways",
                        turned.row().worker().name(),
                        turned.ways().stream().map(sheetWords::way).collect(Collectors.joining("; "))));
            }
        }
        if (!move.stopped().isEmpty()) {
            lines.add(words.say("basisMove.preview.stopped", task, names(move.stopped())));
        }
        if (!move.freed().isEmpty()) {
            lines.add(words.say("basisMove.preview.freed", task, names(move.freed())));
        }
        if (!move.weakened().isEmpty()) {
            lines.add(words.say("basisMove.preview.weakened", task, names(move.weakened())));
        }
        if (move.wearsInAll() > 0) {
            lines.add(words.say("basisMove.preview.wears", task, move.wearsInAll()));
        }
        return lines;
    }

    /** What is asked of a device before and after, whoever is cleared at that moment. */
    private String required(BasisMove move) {
        String task = move.sheet().task();
        String before = sheetWords.enough(move.before());
        String after = sheetWords.enough(move.sheet());
        String weakest = sheetWords.weakest(move.before());
        String thenWeakest = sheetWords.weakest(move.sheet());
        return before.equals(after) && weakest.equals(thenWeakest)
                ? words.say("basisMove.preview.required.same", task, after, thenWeakest)
                : words.say("basisMove.preview.required", task, before, weakest, after, thenWeakest);
    }

    private static String names(Collection<BoardRow> rows) {
        return String.join(
                "; ", rows.stream().map(BoardRow::worker).map(MovePreview::name).toList());
    }

    private static String name(Worker worker) {
        return worker.name() + ", " + worker.number();
    }

    private String ratio(@Nullable BigDecimal ratio) {
        return ratio == null ? words.say("exposureSheet.unknown") : show.figure(TaskSheetController.shown(ratio));
    }
}
