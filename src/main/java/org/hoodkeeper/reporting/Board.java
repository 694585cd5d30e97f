package org.hoodkeeper.reporting;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.assessment.Verdict;

/**
 * Everyone at every task they are posted to, at a moment.
 *
 * @param rows by worker, then by task
 */
public record Board(Moment moment, List<BoardRow> rows) {

    /** How many rows have each verdict; a verdict that none has is left out. */
    public Map<Verdict, Integer> verdicts() {
        Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
        for (BoardRow row : rows) {
            if (row.glance() != null) {
                verdicts.merge(row.glance().verdict(), 1, Integer::sum);
            }
        }
        return verdicts;
    }
}
