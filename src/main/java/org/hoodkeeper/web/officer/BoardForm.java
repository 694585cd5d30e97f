package org.hoodkeeper.web.officer;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.hoodkeeper.reporting.Board;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.web.MomentForm;
import org.jspecify.annotations.Nullable;

/**
 * The board's filters as they stand in the address; nothing means all.
 *
 * @param verdict CLEARED, CLEARED_WITH_CONDITIONS, NOT_CLEARED, DUE_SOON or NOT_POSTED
 * @param reason the requirement of the first reason
 * @param q part of a number, a name, an employer or a label
 * @param sort worker, task or verdict
 * @param page from 1; what is no such number means the first
 */
public record BoardForm(
        @Nullable String at,
        @Nullable String known,
        @Nullable String task,
        @Nullable String verdict,
        @Nullable String reason,
        @Nullable String q,
        @Nullable String sort,
        @Nullable String page) {

    /** From 0; far beyond the last one there is nothing to show. */
    int pagesBefore() {
        return page != null && page.matches("[1-9][0-9]{0,5}") ? Integer.parseInt(page) - 1 : 0;
    }

    /** The board's rows that are asked for, in the order that is asked for. */
    List<BoardRow> fitting(Board board) {
        List<BoardRow> fitting = isAll()
                ? board.rows()
                : board.rows().stream().filter(this::fits).toList();
        Comparator<BoardRow> order = order();
        return order == null
                ? worstFirst(fitting)
                : fitting.stream().sorted(order).toList();
    }

    /** Rows of one verdict stay as a board has them, by worker and task: dealt out, not compared, of twenty thousand. */
    private static List<BoardRow> worstFirst(List<BoardRow> rows) {
        Map<Integer, List<BoardRow>> ranks = new TreeMap<>(Comparator.reverseOrder());
        for (BoardRow row : rows) {
            ranks.computeIfAbsent(rank(row), any -> new ArrayList<>()).add(row);
        }
        List<BoardRow> sorted = new ArrayList<>(rows.size());
        ranks.values().forEach(sorted::addAll);
        return sorted;
    }

    private boolean fits(BoardRow row) {
        return fitsTask(row) && fitsVerdict(row) && fitsReason(row) && fitsText(row);
    }

    private boolean fitsTask(BoardRow row) {
        return blank(task) || (row.task() != null && row.task().code().equals(task));
    }

    private boolean fitsVerdict(BoardRow row) {
        if (blank(verdict)) {
            return true;
        }
        if (row.glance() == null) {
            return "NOT_POSTED".equals(verdict);
        }
        return "DUE_SOON".equals(verdict)
                ? row.glance().dueSoon() != null
                : row.glance().verdict().name().equals(verdict);
    }

    private boolean fitsReason(BoardRow row) {
        return blank(reason)
                || (row.glance() != null
                        && row.glance().first() != null
                        && row.glance().first().kind().name().equals(reason));
    }

    private boolean fitsText(BoardRow row) {
        if (q == null || q.isBlank()) {
            return true;
        }
        String part = q.strip().toLowerCase(Locale.ROOT);
        return has(row.worker().number(), part)
                || has(row.worker().name(), part)
                || has(row.worker().employer(), part)
                || has(row.set(), part);
    }

    private static boolean has(@Nullable String text, String part) {
        return text != null && text.toLowerCase(Locale.ROOT).contains(part);
    }

    private static boolean blank(@Nullable String text) {
        return text == null || text.isBlank();
    }

    /** Equal rows stay as a board has them: by worker, then by task. @return none where the worst come first */
    private @Nullable Comparator<BoardRow> order() {
        if (sort == null) {
            return null;
        }
        Comparator<BoardRow> byWorker =
                Comparator.comparing((BoardRow row) -> row.worker().number()).thenComparing(BoardForm::taskCode);
        return switch (sort) {
            case "worker" -> byWorker;
            case "-worker" -> byWorker.reversed();
            case "task" -> Comparator.comparing(BoardForm::taskCode);
            case "-task" -> Comparator.comparing(BoardForm::taskCode).reversed();
            case "verdict" -> Comparator.comparingInt(BoardForm::rank);
            default -> null;
        };
    }

    private static String taskCode(BoardRow row) {
        return row.task() == null ? "" : row.task().code();
    }

    private static int rank(BoardRow row) {
        return row.glance() == null ? -1 : row.glance().verdict().ordinal();
    }

    public boolean isAll() {
        return blank(task) && blank(verdict) && blank(reason) && blank(q);
    }

    MomentForm moment() {
        return new MomentForm(at, known);
    }
}
