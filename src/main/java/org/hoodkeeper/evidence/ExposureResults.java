package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.hoodkeeper.facts.AirUnit;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Results of samples taken at tasks. */
@Service
@Transactional
public class ExposureResults {

    private final Telling telling;
    private final Known known;

    ExposureResults(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @param substance as named in the site's limits
     * @param at when the sample was taken
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code exposure.substance.missing}; {@code ledger.future};
     *     {@code exposure.substance.unknown} where no limit for it was in force, {@code exposure.unit.differs} from the limit's,
     *     {@code exposure.period.noLimit} for a peak where no such limit is published
     */
    public RecordId record(
            Author author,
            TaskId task,
            String substance,
            ExposureResult result,
            Instant at,
            @Nullable String sourceId) {
        Shape.present(substance, "exposure.substance.missing");
        Shape.name(substance, "substance");
        Accept.fact(result);
        requireLimit(author.site(), substance, result, at);
        return telling.tell(author, Draft.of(result, task, at).scope(substance).source(sourceId), task);
    }

    /** Every limit of the site as known now, newest first: what the results of a file are set against, read once for all rows. */
    @Transactional(readOnly = true)
    public List<Told<Limit>> limits(SiteId site) {
        return known.newest(site, Limit.class, Kind.LIMIT, site);
    }

    /**
     * For a file, which may begin before the site did: a result from before the first limit of its substance is set against that
     * one.
     *
     * @throws Refused as {@link #record}, of the limit
     */
    public static void requireLimit(
            List<Told<Limit>> limits, @Nullable String substance, ExposureResult result, Instant at) {
        List<Told<Limit>> ofSubstance = limits.stream()
                .filter(told -> told.scope() != null && told.scope().equals(substance))
                .toList();
        Limit limit = ofSubstance.stream()
                .filter(told -> !told.from().isAfter(at))
                .findFirst()
                .or(() ->
                        ofSubstance.isEmpty() ? Optional.empty() : Optional.of(ofSubstance.get(ofSubstance.size() - 1)))
                .map(Told::fact)
                .orElseThrow(() -> new Refused("exposure.substance.unknown", String.valueOf(substance), names(limits)));
        requireAgainst(limit, String.valueOf(substance), result);
    }

    private void requireLimit(SiteId site, String substance, ExposureResult result, Instant at) {
        List<Told<Limit>> inForce =
                limits(site).stream().filter(told -> !told.from().isAfter(at)).toList();
        requireAgainst(
                inForce.stream()
                        .filter(told -> substance.equals(told.scope()))
                        .map(Told::fact)
                        .findFirst()
                        .orElseThrow(() -> new Refused("exposure.substance.unknown", substance, names(inForce))),
                substance,
                result);
    }

    /** A result that cannot be set against its limit would only be a number. */
    private static void requireAgainst(Limit limit, String substance, ExposureResult result) {
        if (!limit.unit().equals(result.unit())) {
            throw new Refused(
                    "exposure.unit.differs", AirUnit.written(result.unit()), AirUnit.written(limit.unit()), substance);
        }
        if (limit.of(result.against()) == null) {
            throw new Refused("exposure.period.noLimit", substance);
        }
    }

    private static List<String> names(List<Told<Limit>> limits) {
        return limits.stream()
                .map(Told::scope)
                .filter(Objects::nonNull)
                .distinct()
                .sorted()
                .toList();
    }
}
