package org.hoodkeeper.evidence;

import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
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

    TaskBases(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @param from from when it counts, which may lie ahead; earlier times keep the earlier basis
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code basis.lastDay.before} when it must be reviewed
     *     before it begins; {@code basis.exposures.unitDiffers} from the limit's
     */
    public RecordId record(Author author, TaskId task, TaskBasis basis, Instant from, @Nullable String sourceId) {
        LocalDate day = Days.of(from, known.zone(author.site()));
        if (basis.lastDay() != null && basis.lastDay().isBefore(day)) {
            throw new Refused("basis.lastDay.before", basis.lastDay(), day);
        }
        Accept.fact(basis);
        requireUnits(author.site(), basis, from);
        return telling.tell(author, Draft.of(basis, task, from).source(sourceId), task);
    }

    private void requireUnits(SiteId site, TaskBasis basis, Instant from) {
        Map<String, Limit> limits = new HashMap<>();
        known.newest(site, Limit.class, Kind.LIMIT, site).stream()
                .filter(told -> !told.from().isAfter(from))
                .forEach(told -> limits.putIfAbsent(String.valueOf(told.scope()), told.fact()));
        for (TaskBasis.Exposure exposure : basis.exposures()) {
            Limit limit = limits.get(exposure.substance());
            if (limit != null && !limit.unit().equals(exposure.unit())) {
                throw new Refused("basis.exposures.unitDiffers", exposure.unit(), limit.unit(), exposure.substance());
            }
        }
    }
}
