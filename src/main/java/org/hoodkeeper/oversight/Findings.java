package org.hoodkeeper.oversight;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.evidence.Accept;
import org.hoodkeeper.facts.Finding;
import org.hoodkeeper.facts.Finding.Sort;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * What went wrong, derived from the record: a wear while the screen said no is a control failure, even if later evidence cures it; a
 * wear with no cover as known now is a protection gap, whatever was known then. Told are only who answers for it, until when, and
 * what closed it.
 */
@Service
public class Findings {

    private final JudgedWears wears;
    private final History history;
    private final Ledger ledger;
    private final People people;
    private final SiteRegister sites;
    private final Questions questions;
    private final KnowledgeClock clock;

    Findings(
            JudgedWears wears,
            History history,
            Ledger ledger,
            People people,
            SiteRegister sites,
            Questions questions,
            KnowledgeClock clock) {
        this.wears = wears;
        this.history = history;
        this.ledger = ledger;
        this.people = people;
        this.sites = sites;
        this.questions = questions;
        this.clock = clock;
    }

    /** Where a finding stands; follows from its last step and the day. */
    public enum State {
        UNASSIGNED,
        ASSIGNED,
        OVERDUE,
        CLOSED
    }

    /** What was told about a finding. */
    public record Step(RecordId record, Finding fact, Instant at, AccountId by) {}

    /**
     * @param said what the screen said when the wear began; none where there was no screen yet
     * @param isStored the gate's own answer was kept
     * @param known the verdict as known now
     * @param barred requirements that stood in the way: then for a control failure, now for a gap
     * @param holds it still follows from the record; else something told since cured or corrected it
     * @param steps newest first
     */
    public record Found(
            Sort sort,
            Worn worn,
            @Nullable Verdict said,
            boolean isStored,
            Verdict known,
            List<String> barred,
            boolean holds,
            State state,
            List<Step> steps) {

        public @Nullable Finding assignment() {
            return steps.stream()
                    .map(Step::fact)
                    .filter(step -> step.step() == Finding.Step.ASSIGNED)
                    .findFirst()
                    .orElse(null);
        }

        /** The screen said no, and evidence that was told later says yes. */
        public boolean isCured() {
            return sort == Sort.CONTROL_FAILURE && known != Verdict.NOT_CLEARED;
        }

        public boolean isClosed() {
            return state == State.CLOSED;
        }
    }

    /** @param notJudged wears of the period that are still to be judged: look again */
    public record All(List<Found> found, int notJudged) {}

    /**
     * Findings of the wears that begin in a period, the newest first.
     *
     * @param judging at most so many wears are judged before it answers
     */
    public All of(SiteId site, Instant from, Instant until, int judging) {
        int left = wears.refresh(site, from, until, judging);
        Instant now = clock.now();
        ZoneId zone = sites.get(site).zone();
        List<JudgedWears.Judged> all = wears.of(site, from, until);
        Map<UUID, Map<Sort, List<Step>>> steps =
                steps(site, all.stream().map(one -> one.worn().root().value()).toList(), now);
        List<Found> found = new ArrayList<>();
        for (JudgedWears.Judged judged : all) {
            Map<Sort, List<Step>> told = steps.getOrDefault(judged.worn().root().value(), Map.of());
            for (Sort sort : Sort.values()) {
                Found one = found(sort, judged, told.getOrDefault(sort, List.of()), Days.of(now, zone));
                if (one != null) {
                    found.add(one);
                }
            }
        }
        found.sort(Comparator.comparing((Found one) -> one.worn().from())
                .reversed()
                .thenComparing(Found::sort));
        return new All(found, left);
    }

    /** @throws NotFound {@code finding.unknown} */
    public Found one(SiteId site, RecordId root, Sort sort) {
        History.Version wear = history.find(site, root, clock.now());
        if (wear != null) {
            Instant from = newest(site, wear).told().from();
            for (Found found : of(site, from, from.plusSeconds(1), 10).found()) {
                if (found.worn().root().equals(root) && found.sort() == sort) {
                    return found;
                }
            }
        }
        throw new NotFound("finding.unknown", root);
    }

    /**
     * What stood in the way, with its figures and the record it rests on: of a control failure as it was known when the wear began,
     * of a gap as known now, as this reader may see it.
     */
    public List<Reason> why(Viewer viewer, Found found) {
        Instant now = clock.now();
        Worn worn = found.worn();
        boolean then = found.sort() == Sort.CONTROL_FAILURE;
        Question question = Question.ofSet(
                viewer.site(), worn.worker(), worn.task(), worn.set(), worn.judged(now), then ? worn.from() : now);
        try {
            return questions.ask(viewer, then ? question.atTheDoor() : question).reasons().stream()
                    .filter(reason -> reason.result().bars())
                    .toList();
        } catch (NotFound notToldYet) {
            return List.of();
        }
    }

    private History.Version newest(SiteId site, History.Version version) {
        History.Version newest = version;
        while (newest.replacedBy() != null) {
            newest = Objects.requireNonNull(history.find(site, newest.replacedBy(), clock.now()), "a chain has no gap");
        }
        return newest;
    }

    /**
     * Gives a finding to somebody; a closed one is open again.
     *
     * @param dueOn the last day on which it shall be closed; not before today
     * @throws Refused {@code finding.owner.missing}, {@code finding.dueOn.missing}, {@code finding.dueOn.past}
     */
    @Transactional
    public RecordId assign(
            Viewer viewer, RecordId root, Sort sort, @Nullable AccountId owner, @Nullable LocalDate dueOn) {
        Found found = one(viewer.site(), root, sort);
        LocalDate today = Days.of(clock.now(), sites.get(viewer.site()).zone());
        if (dueOn != null && dueOn.isBefore(today)) {
            throw new Refused("finding.dueOn.past", dueOn, today);
        }
        return tell(
                viewer,
                found,
                new Finding(sort, Finding.Step.ASSIGNED, owner == null ? null : owner.value(), dueOn, null));
    }

    /**
     * Closes a finding with what was done about it.
     *
     * @throws Refused {@code finding.action.missing}, {@code finding.closed} when it is closed already
     */
    @Transactional
    public RecordId close(Viewer viewer, RecordId root, Sort sort, @Nullable String action) {
        people.lock(viewer.site(), one(viewer.site(), root, sort).worn().worker());
        Found found = one(viewer.site(), root, sort);
        if (found.isClosed()) {
            throw new Refused("finding.closed", found.steps().get(0).at());
        }
        return tell(viewer, found, new Finding(sort, Finding.Step.CLOSED, null, null, action));
    }

    private RecordId tell(Viewer viewer, Found found, Finding step) {
        Accept.fact(step);
        return ledger.append(
                Author.at(viewer),
                Draft.of(step, found.worn().worker(), clock.now())
                        .item(found.worn().root()));
    }

    private static @Nullable Found found(Sort sort, JudgedWears.Judged judged, List<Step> steps, LocalDate today) {
        boolean failure = sort == Sort.CONTROL_FAILURE;
        boolean holds = (failure ? judged.then() : judged.now()) == Verdict.NOT_CLEARED;
        if (!holds && steps.isEmpty()) {
            return null;
        }
        return new Found(
                sort,
                judged.worn(),
                judged.then(),
                judged.isStored(),
                judged.now(),
                failure ? judged.barredThen() : judged.barredNow(),
                holds,
                state(steps, today),
                steps);
    }

    private static State state(List<Step> newestFirst, LocalDate today) {
        if (newestFirst.isEmpty()) {
            return State.UNASSIGNED;
        }
        Finding last = newestFirst.get(0).fact();
        if (last.step() == Finding.Step.CLOSED) {
            return State.CLOSED;
        }
        return last.dueOn() != null && last.dueOn().isBefore(today) ? State.OVERDUE : State.ASSIGNED;
    }

    /** By the wear's name and sort, newest first. */
    private Map<UUID, Map<Sort, List<Step>>> steps(SiteId site, List<UUID> wears, Instant now) {
        Map<UUID, Map<Sort, List<Step>>> steps = new HashMap<>();
        for (History.Version version : history.with(site, Kind.FINDING, wears, now)) {
            UUID wear = version.told().item();
            if (version.isCurrent() && wear != null && version.told().fact() instanceof Finding fact) {
                steps.computeIfAbsent(wear, any -> new HashMap<>())
                        .computeIfAbsent(fact.sort(), any -> new ArrayList<>())
                        .add(new Step(version.told().id(), fact, version.told().recordedAt(), version.toldBy()));
            }
        }
        return steps;
    }
}
