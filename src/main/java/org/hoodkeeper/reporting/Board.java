package org.hoodkeeper.reporting;

import java.util.List;
import org.hoodkeeper.assessment.Verdict;

/**
 * Everyone at every task they are posted to, at a moment.
 *
 * @param rows by worker, then by task
 */
public record Board(Moment moment, List<BoardRow> rows) {

    public long count(Verdict verdict) {
        return rows.stream()
                .filter(row -> row.glance() != null && row.glance().verdict() == verdict)
                .count();
    }
}
