package org.hoodkeeper.store;

import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Particulars;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** The certificate of one examination: every particular that ACoP L5, 184 names, as it was on the day and is known now. */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Certificates {

    /** More versions than a set, a model or the particulars of a site ever have. */
    private static final int MOST = 1_000;

    private final Kit kit;
    private final History history;
    private final FlowCourses courses;

    Certificates(Kit kit, History history, FlowCourses courses) {
        this.kit = kit;
        this.history = history;
        this.courses = courses;
    }

    /**
     * @param version the examination's record, be it replaced or not
     * @param label distinguishing number of the set
     * @param set what the set was on the day; none where nothing is on record
     * @param modelCode the model's code; none without a set's data
     * @param model what its maker said on the day
     * @param particulars employer and makers that held on the day; the first ones for an examination before them; none where nobody
     *     recorded any
     * @param flow the measured flow, judged as known now; none where none was measured
     */
    public record Certificate(
            History.Version version,
            Examination examination,
            String label,
            @Nullable SetData set,
            @Nullable String modelCode,
            @Nullable ModelData model,
            @Nullable Particulars particulars,
            @Nullable MeasuredFlow flow) {

        /** None where the particulars leave the model out. */
        public @Nullable String maker() {
            return particulars == null || modelCode == null
                    ? null
                    : particulars.makers().get(modelCode);
        }
    }

    /** @throws NotFound {@code set.unknown}, or {@code record.unknown} where it is no examination of that set */
    public Certificate of(SiteId site, String label, RecordId record, Instant now) {
        KitSet set = kit.set(site, label);
        History.Version version = history.find(site, record, now);
        if (version == null
                || version.withdrawal()
                || !(version.told().fact() instanceof Examination examination)
                || !version.told().subject().equals(set.id().value())) {
            throw new NotFound("record.unknown", record);
        }
        Instant at = version.told().from();
        SetData data = at(site, set.id(), Kind.SET, SetData.class, at, now);
        ModelData model = data == null ? null : at(site, data.model(), Kind.MODEL, ModelData.class, at, now);
        return new Certificate(
                version,
                examination,
                set.label(),
                data,
                data == null ? null : kit.model(site, data.model()).code(),
                model,
                at(site, site, Kind.PARTICULARS, Particulars.class, at, now),
                courses.one(site, version, now));
    }

    /** What the site has recorded and holds at an instant; none where there is nothing. */
    public @Nullable Particulars particulars(SiteId site, Instant at) {
        return at(site, site, Kind.PARTICULARS, Particulars.class, at, at);
    }

    private <F extends Fact> @Nullable F at(
            SiteId site, Id subject, Kind kind, Class<F> type, Instant at, Instant now) {
        Fact found = null;
        List<History.Version> newestFirst = history.of(site, subject, Set.of(kind), now, MOST);
        for (History.Version version : newestFirst) {
            if (version.isCurrent()) {
                Told<?> told = version.told();
                found = told.fact();
                if (!told.from().isAfter(at)) {
                    break;
                }
            }
        }
        return found == null ? null : type.cast(found);
    }
}
