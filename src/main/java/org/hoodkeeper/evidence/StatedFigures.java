package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.assessment.AirPart;
import org.hoodkeeper.assessment.ResultShelf;
import org.hoodkeeper.assessment.TaskAir;
import org.hoodkeeper.assessment.Weighed;
import org.hoodkeeper.facts.AirUnit;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.programme.Programme;
import org.springframework.stereotype.Component;

/** Whether the figures of an assessment go with the limits and results on record. */
@Component
class StatedFigures {

    private final Known known;
    private final Programme programme;

    StatedFigures(Known known, Programme programme) {
        this.known = known;
        this.programme = programme;
    }

    /**
     * @throws Refused {@code basis.exposures.unitDiffers} from the limit's; {@code basis.whyBelow.byStatistic} or {@code
     *     .byHighest} where a figure lies below what the results sampled by then say, and no reason is given. An assessment may
     *     lower a figure, which results alone never do, and so it says why. Common practice, no source
     */
    void require(SiteId site, TaskId task, TaskBasis basis, Instant from) {
        requireUnits(site, basis, from);
        if (basis.whyBelow() == null || basis.whyBelow().isBlank()) {
            requireNoneBelow(site, task, basis, from);
        }
    }

    private void requireUnits(SiteId site, TaskBasis basis, Instant from) {
        Map<String, Limit> limits = new HashMap<>();
        known.newest(site, Limit.class, Kind.LIMIT, site).stream()
                .filter(told -> !told.from().isAfter(from))
                .forEach(told -> limits.putIfAbsent(String.valueOf(told.scope()), told.fact()));
        for (TaskBasis.Exposure exposure : basis.exposures()) {
            Limit limit = limits.get(exposure.substance());
            if (limit != null && !limit.unit().equals(exposure.unit())) {
                throw new Refused(
                        "basis.exposures.unitDiffers",
                        AirUnit.written(exposure.unit()),
                        AirUnit.written(limit.unit()),
                        exposure.substance());
            }
        }
    }

    /**
     * There is no way from parts of volume to mass here: that needs the substance's molar mass and the air's temperature and
     * pressure, and a limit's source says how it converts.
     *
     * @throws Refused {@code limit.unit.differs} from an assessment that counts then or later, {@code limit.unit.results} from the
     *     newest result of the substance: what stands in another unit could not be set against it
     */
    void requireUnit(SiteId site, String substance, Limit limit, Instant from) {
        Map<UUID, Instant> inForce = new HashMap<>();
        List<Told<TaskBasis>> bases = known.all(site, TaskBasis.class, Kind.TASK_BASIS);
        bases.stream()
                .filter(told -> !told.from().isAfter(from))
                .forEach(told ->
                        inForce.merge(told.subject(), told.from(), (one, other) -> one.isAfter(other) ? one : other));
        for (Told<TaskBasis> told : bases) {
            Instant standing = inForce.get(told.subject());
            if (standing != null && told.from().isBefore(standing)) {
                continue;
            }
            told.fact().exposures().stream()
                    .filter(one ->
                            one.substance().equals(substance) && !one.unit().equals(limit.unit()))
                    .findFirst()
                    .ifPresent(one -> {
                        throw new Refused(
                                "limit.unit.differs",
                                AirUnit.written(limit.unit()),
                                AirUnit.written(one.unit()),
                                substance,
                                programme.task(site, new TaskId(told.subject())).code());
                    });
        }
        Told<ExposureResult> newest = known.newestOf(site, ExposureResult.class, Kind.EXPOSURE_RESULT, substance);
        if (newest != null && !newest.fact().unit().equals(limit.unit())) {
            throw new Refused(
                    "limit.unit.results",
                    AirUnit.written(limit.unit()),
                    AirUnit.written(newest.fact().unit()),
                    substance);
        }
    }

    private void requireNoneBelow(SiteId site, TaskId task, TaskBasis basis, Instant from) {
        List<Told<ExposureResult>> begun = known.newest(site, ExposureResult.class, Kind.EXPOSURE_RESULT, task).stream()
                .filter(told -> !told.from().isAfter(from))
                .toList();
        TaskAir.weighed(basis, begun, new ResultShelf(begun), known.rules(site).at(from), known.zone(site)).stream()
                .filter(Weighed::isBelow)
                .findFirst()
                .ifPresent(below -> {
                    throw new Refused(
                            below.origin() == AirPart.Origin.RESULTS
                                    ? "basis.whyBelow.byStatistic"
                                    : "basis.whyBelow.byHighest",
                            below.substance(),
                            below.value(),
                            AirUnit.written(below.unit()),
                            below.stated() == null ? null : below.stated().value());
                });
    }
}
