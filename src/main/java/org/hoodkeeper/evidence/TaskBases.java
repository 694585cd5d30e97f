package org.hoodkeeper.evidence;

import java.time.Instant;
import java.time.LocalDate;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The exposure assessments that tasks stand on. */
@Service
@Transactional
public class TaskBases {

    private final Telling telling;
    private final Known known;
    private final StatedFigures figures;

    TaskBases(Telling telling, Known known, StatedFigures figures) {
        this.telling = telling;
        this.known = known;
        this.figures = figures;
    }

    /**
     * @param from from when it counts, which may lie ahead; earlier times keep the earlier basis
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code basis.lastDay.before} when it must be reviewed
     *     before it begins; as {@link FiguresOnRecord#require(java.util.UUID, TaskBasis, Instant)}
     */
    public RecordId record(Author author, TaskId task, TaskBasis basis, Instant from, @Nullable String sourceId) {
        LocalDate day = Days.of(from, known.zone(author.site()));
        if (basis.lastDay() != null && basis.lastDay().isBefore(day)) {
            throw new Refused("basis.lastDay.before", basis.lastDay(), day);
        }
        Accept.fact(basis);
        figures.of(author.site()).require(task.value(), basis, from);
        return telling.tell(author, Draft.of(basis, task, from).source(sourceId), task);
    }
}
