package org.hoodkeeper.web.officer;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.KeepUntil;
import org.hoodkeeper.oversight.Retentions;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Lateness;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Keeping;
import org.hoodkeeper.web.record.Sight;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What was told about a person, as far as the reader may know it: nothing medical without the right. */
@Component
class PersonHistory {

    private static final int MOST = 200;

    private final History history;
    private final SiteRegister sites;
    private final Lateness lateness;
    private final Words words;
    private final Show show;
    private final Retentions retentions;
    private final Keeping keeping;
    private final KnowledgeClock clock;

    PersonHistory(
            History history,
            SiteRegister sites,
            Lateness lateness,
            Words words,
            Show show,
            Retentions retentions,
            Keeping keeping,
            KnowledgeClock clock) {
        this.history = history;
        this.sites = sites;
        this.lateness = lateness;
        this.words = words;
        this.show = show;
        this.retentions = retentions;
        this.keeping = keeping;
        this.clock = clock;
    }

    /**
     * @param open the reader may open it
     * @param struck replaced or withdrawn since
     * @param late told so many days after the event; 0 when told in time
     * @param kept until when it is kept; none for a reader who does not answer for that
     */
    public record Line(
            String record,
            boolean open,
            String kind,
            @Nullable String scope,
            String when,
            String told,
            long late,
            boolean struck,
            @Nullable String kept) {}

    List<Line> of(Viewer viewer, Worker worker, Instant knownAt) {
        ZoneId zone = sites.get(viewer.site()).zone();
        Lateness.Measure measure = lateness.of(viewer.site());
        List<History.Version> seen = history.of(viewer.site(), worker.id(), knownAt, MOST).stream()
                .filter(version -> isSeen(viewer, worker, version.kind()))
                .toList();
        Map<UUID, KeepUntil> kept = kept(viewer, seen);
        return seen.stream()
                .map(version -> line(
                        viewer,
                        version,
                        zone,
                        measure,
                        kept.get(version.told().id().value())))
                .toList();
    }

    /** As known now, whatever moment the page shows: what is to be kept is decided today. */
    private Map<UUID, KeepUntil> kept(Viewer viewer, List<History.Version> seen) {
        return viewer.is(Role.OFFICER)
                ? retentions.of(
                        viewer.site(),
                        seen.stream()
                                .map(version -> version.told().id().value())
                                .toList(),
                        clock.now())
                : Map.of();
    }

    /** The outcome: person, health role, officer. A report of symptoms: the person and the health role alone. */
    private static boolean isSeen(Viewer viewer, Worker worker, Kind kind) {
        if (!kind.isMedical() || viewer.isSelf(worker.id()) || viewer.is(Role.HEALTH)) {
            return true;
        }
        return kind == Kind.MEDICAL_OUTCOME && viewer.is(Role.OFFICER);
    }

    private Line line(
            Viewer viewer, History.Version version, ZoneId zone, Lateness.Measure measure, @Nullable KeepUntil kept) {
        return new Line(
                version.told().id().toString(),
                Sight.of(viewer, version),
                words.say(Words.kindKey(version.kind())),
                version.told().scope(),
                show.instant(version.told().from(), zone),
                show.instant(version.told().recordedAt(), zone),
                version.told().corrects() == null ? measure.days(version.kind(), version.told()) : 0,
                !version.isCurrent(),
                kept == null ? null : keeping.until(kept));
    }
}
