package org.hoodkeeper.oversight;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Board;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.Lateness;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Where a past moment as known now differs from the same moment as known then: what was told in between about that time, and which
 * verdicts turned. Both are asked at the door, so that a check before use that nobody made does not look like news.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Differences {

    /** As many records as a page lists, the newest told. */
    static final int MOST = 100;

    private static final int MOST_DECISIONS = 1_000;

    private final History history;
    private final SiteBoards boards;
    private final Lateness lateness;
    private final SiteRegister sites;
    private final RuleShelf shelf;

    Differences(History history, SiteBoards boards, Lateness lateness, SiteRegister sites, RuleShelf shelf) {
        this.history = history;
        this.boards = boards;
        this.lateness = lateness;
        this.sites = sites;
        this.shelf = shelf;
    }

    /** A record that was told after the moment and speaks of a time before it. @param late days late; 0 for a correction */
    public record Change(History.Version version, long late) {

        public boolean isCorrection() {
            return version.told().corrects() != null && !version.withdrawal();
        }
    }

    /** @param then none where the person was not known to be posted there, or nothing could be judged */
    public record Flip(
            Worker worker,
            String task,
            @Nullable Verdict then,
            @Nullable Verdict now) {}

    /**
     * @param rules versions of the site's rule sets that the service was given since: what judges the moment now
     * @param more there are more changes than listed
     */
    public record All(List<RuleShelf.Given> rules, List<Change> changes, boolean more, List<Flip> flips) {

        public boolean isEmpty() {
            return rules.isEmpty() && changes.isEmpty() && flips.isEmpty();
        }
    }

    /** The whole board. @param boards of that moment, which is a past one */
    public All ofBoard(Viewer viewer, SiteBoards.Compared boards, Moment moment, Instant now) {
        return of(
                viewer,
                moment,
                now,
                subjects(viewer, boards.then(), boards.known()),
                flips(boards.then(), boards.known()));
    }

    /** One person, with the sets in hand and the tasks. @param others ids of what else the page is about */
    public All ofPerson(Viewer viewer, Worker worker, Moment moment, Instant now, Collection<UUID> others) {
        Board then = boards.of(viewer, then(moment), worker);
        Board known = boards.of(viewer, now(moment, now), worker);
        Set<UUID> about = new LinkedHashSet<>(others);
        about.add(worker.id().value());
        List.of(then, known)
                .forEach(board -> board.rows().forEach(row -> {
                    if (row.task() != null) {
                        about.add(row.task().id().value());
                    }
                }));
        return of(viewer, moment, now, about, flips(then, known));
    }

    /** What was told about some things, without verdicts. */
    public All ofThings(Viewer viewer, Moment moment, Instant now, Collection<UUID> about) {
        return of(viewer, moment, now, about, List.of());
    }

    private All of(Viewer viewer, Moment moment, Instant now, Collection<UUID> about, List<Flip> flips) {
        Lateness.Measure measure = lateness.of(viewer.site());
        List<Change> changes = new ArrayList<>();
        List<History.Version> told =
                history.toldBetween(viewer.site(), moment.at(), now, moment.at(), about, unseen(viewer), MOST * 2);
        for (History.Version version : told) {
            if (isSeen(viewer, version)) {
                long late = version.told().corrects() == null ? measure.days(version.kind(), version.told()) : 0;
                changes.add(new Change(version, late));
            }
        }
        boolean more = changes.size() > MOST || told.size() == MOST * 2;
        return new All(
                rules(viewer.site(), moment, now), changes.subList(0, Math.min(MOST, changes.size())), more, flips);
    }

    /** Of every rule set that the site has adopted at any time: which of them judges the moment is in the verdict. */
    private List<RuleShelf.Given> rules(SiteId site, Moment moment, Instant now) {
        Set<String> adopted = new LinkedHashSet<>();
        adopted.add(sites.get(site).firstRuleSet());
        for (History.Version version : history.of(site, List.of(Kind.SITE_DECISION), now, MOST_DECISIONS)) {
            if (SiteRules.ADOPTED.equals(version.told().scope())
                    && version.told().fact() instanceof SiteDecision decision) {
                adopted.add(decision.value());
            }
        }
        return shelf.givenBetween(moment.at(), now).stream()
                .filter(given -> adopted.contains(given.code()))
                .toList();
    }

    private static Moment then(Moment moment) {
        return new Moment(moment.at(), moment.at(), Moment.View.AS_KNOWN_THEN);
    }

    private static Moment now(Moment moment, Instant now) {
        return new Moment(moment.at(), now, Moment.View.NOW);
    }

    /** Nothing means everything: only a reader who sees the whole site reads what was told about all of it. */
    private static Collection<UUID> subjects(Viewer viewer, Board then, Board now) {
        if (viewer.isAny(Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST)) {
            return List.of();
        }
        Set<UUID> own = new LinkedHashSet<>();
        own.add(new UUID(0, 0));
        List.of(then, now)
                .forEach(board ->
                        board.rows().forEach(row -> own.add(row.worker().id().value())));
        return own;
    }

    /** Kinds of which the reader sees none, so that they take no room from what is seen. */
    private static Set<Kind> unseen(Viewer viewer) {
        Set<Kind> unseen = EnumSet.of(Kind.FINDING);
        if (!viewer.is(Role.HEALTH) && viewer.worker() == null) {
            unseen.add(Kind.SYMPTOM_REPORT);
            if (!viewer.is(Role.OFFICER)) {
                unseen.add(Kind.MEDICAL_OUTCOME);
            }
        }
        return unseen;
    }

    /** As in a person's history: nothing medical without the right, not even that it was told. */
    private static boolean isSeen(Viewer viewer, History.Version version) {
        boolean self = version.kind().subject() == Subject.WORKER
                && viewer.isSelf(new WorkerId(version.told().subject()));
        return !version.kind().isMedical()
                || self
                || viewer.is(Role.HEALTH)
                || (version.kind() == Kind.MEDICAL_OUTCOME && viewer.is(Role.OFFICER));
    }

    private static List<Flip> flips(Board then, Board now) {
        Map<String, BoardRow> before = rows(then);
        Map<String, BoardRow> after = rows(now);
        Set<String> keys = new LinkedHashSet<>(after.keySet());
        keys.addAll(before.keySet());
        List<Flip> flips = new ArrayList<>();
        for (String key : keys) {
            Verdict one = verdict(before.get(key));
            Verdict other = verdict(after.get(key));
            if (one != other) {
                BoardRow row = after.getOrDefault(key, before.get(key));
                if (row != null && row.task() != null) {
                    flips.add(new Flip(row.worker(), row.task().code(), one, other));
                }
            }
        }
        return flips;
    }

    private static Map<String, BoardRow> rows(Board board) {
        Map<String, BoardRow> rows = new LinkedHashMap<>();
        for (BoardRow row : board.rows()) {
            if (row.task() != null) {
                rows.put(row.worker().id() + "/" + row.task().code(), row);
            }
        }
        return rows;
    }

    private static @Nullable Verdict verdict(@Nullable BoardRow row) {
        return row == null || row.glance() == null ? null : row.glance().verdict();
    }
}
