package org.hoodkeeper.web.officer;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What was told about a person, as far as the reader may know it: nothing medical without the right. */
@Component
class PersonHistory {

    private static final int MOST = 200;

    private final History history;
    private final SiteRegister sites;
    private final Words words;
    private final Show show;

    PersonHistory(History history, SiteRegister sites, Words words, Show show) {
        this.history = history;
        this.sites = sites;
        this.words = words;
        this.show = show;
    }

    /**
     * @param struck replaced or withdrawn since
     * @param late told so many days after the event; 0 when told in time
     */
    record Line(String kind, @Nullable String scope, String when, String told, long late, boolean struck) {}

    List<Line> of(Viewer viewer, Worker worker, Instant knownAt) {
        ZoneId zone = sites.get(viewer.site()).zone();
        return history.of(viewer.site(), worker.id(), knownAt, MOST).stream()
                .filter(version -> isSeen(viewer, worker, version.kind()))
                .map(version -> line(version, zone))
                .toList();
    }

    /** The outcome: person, health role, officer. A report of symptoms: the person and the health role alone. */
    private static boolean isSeen(Viewer viewer, Worker worker, Kind kind) {
        if (!kind.isMedical() || viewer.isSelf(worker.id()) || viewer.is(Role.HEALTH)) {
            return true;
        }
        return kind == Kind.MEDICAL_OUTCOME && viewer.is(Role.OFFICER);
    }

    private Line line(History.Version version, ZoneId zone) {
        LocalDate happened = Days.of(version.told().from(), zone);
        LocalDate told = Days.of(version.told().recordedAt(), zone);
        long late = version.kind().mayBeginLater() ? 0 : Math.max(0, ChronoUnit.DAYS.between(happened, told));
        return new Line(
                words.say(Words.kindKey(version.kind())),
                version.told().scope(),
                show.instant(version.told().from(), zone),
                show.instant(version.told().recordedAt(), zone),
                late,
                !version.isCurrent());
    }
}
