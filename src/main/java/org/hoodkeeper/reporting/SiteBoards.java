package org.hoodkeeper.reporting;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.Wall;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * The site at a moment: each person at each task, with the best verdict over the sets in hand, or over the models that would
 * do where no set is issued. A fixed number of statements, however many people.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class SiteBoards {

    private final SiteRegister sites;
    private final People people;
    private final Programme programme;
    private final Rounds rounds;
    private final Standings standings;
    private final Hindsight hindsight;
    private final KnowledgeClock clock;

    SiteBoards(
            SiteRegister sites,
            People people,
            Programme programme,
            Rounds rounds,
            Standings standings,
            Hindsight hindsight,
            KnowledgeClock clock) {
        this.sites = sites;
        this.people = people;
        this.programme = programme;
        this.rounds = rounds;
        this.standings = standings;
        this.hindsight = hindsight;
        this.clock = clock;
    }

    /** When "now" is, for {@link Moment#of}. */
    public Instant now() {
        return clock.now();
    }

    /** Everyone the reader may see. Today's board is kept and only brought up to date; its moment is that of the last look. */
    @Transactional(propagation = Propagation.SUPPORTS)
    public Board of(Viewer viewer, Moment moment) {
        Site site = sites.get(viewer.site());
        if (moment.view() != Moment.View.NOW || !moment.knownAt().equals(moment.at())) {
            return asOf(viewer, site, moment);
        }
        Standings.Kept kept = standings.of(site);
        return board(viewer, Moment.of(null, false, kept.at()), kept.everyone());
    }

    private Board asOf(Viewer viewer, Site site, Moment moment) {
        return board(viewer, moment, rounds.judge(site, moment, seen(viewer, people.all(site.id()))));
    }

    /** A past moment as known then and as known now, both as seen from the door: what differs was told since. */
    public record Compared(Board then, Board known) {}

    /** @param at before now */
    public Compared compared(Viewer viewer, Instant at, Instant now) {
        Site site = sites.get(viewer.site());
        Hindsight.Both both = hindsight.judge(site, at, now, seen(viewer, people.all(site.id())));
        return new Compared(
                board(viewer, Hindsight.then(at), both.then()), board(viewer, Hindsight.known(at, now), both.known()));
    }

    /** Everyone posted to one task, at that task alone: judges nobody else. */
    public Board at(Viewer viewer, Moment moment, String task) {
        Site site = sites.get(viewer.site());
        TaskId id = programme.task(viewer.site(), task).id();
        Board board = board(viewer, moment, rounds.judge(site, moment, seen(viewer, rounds.everPosted(site, id))));
        return new Board(
                board.moment(),
                board.rows().stream()
                        .filter(row -> row.task() != null && row.task().id().equals(id))
                        .toList());
    }

    /** One person at every task that this person is posted to. */
    public Board of(Viewer viewer, Moment moment, Worker worker) {
        Site site = sites.get(viewer.site());
        return board(viewer, moment, rounds.judge(site, moment, seen(viewer, List.of(worker))));
    }

    private static List<Worker> seen(Viewer viewer, List<Worker> all) {
        return all.stream().filter(worker -> sees(viewer, worker)).toList();
    }

    private static boolean seesAll(Viewer viewer) {
        return viewer.isAny(Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST);
    }

    private static boolean sees(Viewer viewer, Worker worker) {
        return seesAll(viewer) || viewer.isSelf(worker.id()) || isStaff(viewer, worker);
    }

    private static boolean isStaff(Viewer viewer, Worker worker) {
        return viewer.is(Role.EMPLOYER)
                && viewer.employer() != null
                && viewer.employer().equals(worker.employer());
    }

    private static Board board(Viewer viewer, Moment moment, Collection<Standing> standings) {
        List<BoardRow> rows = new ArrayList<>(standings.size());
        if (Wall.seesEveryOutcome(viewer)) {
            standings.forEach(standing -> standing.addTo(rows, Wall.View.WHOLE));
            return new Board(moment, rows);
        }
        boolean seesAll = seesAll(viewer);
        for (Standing standing : standings) {
            Worker worker = standing.worker();
            if (seesAll || sees(viewer, worker)) {
                standing.addTo(
                        rows,
                        Wall.view(
                                viewer,
                                worker.id(),
                                isStaff(viewer, worker) ? Assessment.Staff.OWN : Assessment.Staff.OTHERS));
            }
        }
        return new Board(moment, rows);
    }
}
