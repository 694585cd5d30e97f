package org.hoodkeeper.reporting;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.Wall;
import org.hoodkeeper.people.Worker;

/**
 * One person's lines of the board, for each kind of reader.
 *
 * @param lines one for each task that the person is posted to, as each kind of reader may see it; one without task for a person
 *     who is posted nowhere
 * @param holdsUntil the next instant at which the calendar alone may change any line; {@link Instant#MAX} for never
 * @param rests what the lines rest on besides the person: sets, tasks, models, supplies, instruments
 */
record Standing(Worker worker, List<Map<Wall.View, BoardRow>> lines, Instant holdsUntil, Set<UUID> rests) {

    Standing {
        lines = List.copyOf(lines);
        rests = Set.copyOf(rests);
    }

    List<BoardRow> rows(Wall.View view) {
        List<BoardRow> rows = new ArrayList<>(lines.size());
        addTo(rows, view);
        return rows;
    }

    void addTo(List<BoardRow> rows, Wall.View view) {
        for (Map<Wall.View, BoardRow> line : lines) {
            rows.add(line.get(view));
        }
    }

    /** @param told what records are about */
    boolean isConcernedBy(Set<UUID> told) {
        if (told.isEmpty()) {
            return false;
        }
        if (told.contains(worker.id().value())) {
            return true;
        }
        for (UUID id : rests) {
            if (told.contains(id)) {
                return true;
            }
        }
        return false;
    }
}
