package org.hoodkeeper.evidence;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.programme.Programme;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the figures of a limit or an assessment are held against. */
@Service
@Transactional(readOnly = true)
public class StatedFigures {

    private final Known known;
    private final Programme programme;

    StatedFigures(Known known, Programme programme) {
        this.known = known;
        this.programme = programme;
    }

    /** As known now. Results are read when first asked for, so use it within the transaction. */
    public FiguresOnRecord of(SiteId site) {
        Map<UUID, List<Told<ExposureResult>>> ofTask = new HashMap<>();
        List<Told<Limit>> limits = known.newest(site, Limit.class, Kind.LIMIT, site);
        return new FiguresOnRecord(
                limits,
                FiguresOnRecord.spellings(limits),
                known.all(site, TaskBasis.class, Kind.TASK_BASIS),
                (substance, before) ->
                        known.newestOf(site, ExposureResult.class, Kind.EXPOSURE_RESULT, substance, before),
                task -> ofTask.computeIfAbsent(
                        task, one -> known.newest(site, ExposureResult.class, Kind.EXPOSURE_RESULT, new TaskId(one))),
                task -> programme.task(site, new TaskId(task)).code(),
                known.rules(site),
                known.zone(site));
    }
}
