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
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Says, before a result, a limit or an assessment is recorded, whom it will turn. */
@Component
class MovePreview {

    private final BasisMoves moves;
    private final Words words;
    private final Show show;
    private final SheetWords sheetWords;

    MovePreview(BasisMoves moves, Words words, Show show, SheetWords sheetWords) {
        this.sheetWords = sheetWords;
        this.moves = moves;
        this.words = words;
        this.show = show;
    }

    /** @param told just before it is told @param from when it begins to count */
    List<String> ofTask(Viewer viewer, String code, Instant told, Instant from) {
        List<String> lines = new ArrayList<>(of(moves.preview(viewer, code, told, from)));
        when(from, told, lines);
        return lines;
    }

    List<String> ofLimit(Viewer viewer, String substance, Instant told, Instant from) {
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
        lines.add(
                move.turned().isEmpty()
                        ? words.say("basisMove.preview.none", task)
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
        if (!move.wears().isEmpty()) {
            lines.add(words.say("basisMove.preview.wears", task, move.wears().size()));
        }
        return lines;
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
