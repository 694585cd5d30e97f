package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * How a set stands on the shelf, without a person or a task: judged by the same requirements that count when somebody asks for
 * it. What is wrong with an air supply sits on the supply: it is listed, and does not make a set unready.
 *
 * @param state what may be done with it
 * @param lastWearer who had it on last, as far as the records tell; none where nobody has worn it
 * @param reasons every requirement of kit and supply, in the order of {@link RequirementKind}
 * @param clearBy what would clear each barring reason, and who can
 * @param holdsUntil the next instant at which the calendar alone may change it; {@link Instant#MAX} for never
 */
public record Readiness(
        State state, @Nullable WorkerId lastWearer, List<Reason> reasons, List<ClearBy> clearBy, Instant holdsUntil) {

    /** What may be done with a set. */
    public enum State {
        /** Anybody may have it who is cleared for it. */
        READY,
        /** Not disinfected since it was worn: good for the one who wore it. */
        READY_FOR_LAST_WEARER,
        NOT_READY
    }

    /** Stands for somebody who never wore the set. */
    public static final WorkerId ANYBODY = new WorkerId(new UUID(0, 0));

    /** Stands for no task: what the task asks for is not judged. */
    public static final TaskId NO_TASK = new TaskId(new UUID(0, 0));

    public Readiness {
        reasons = List.copyOf(reasons);
        clearBy = List.copyOf(clearBy);
    }

    /** Why it is not ready; empty when it is. */
    public List<Reason> barring() {
        return reasons.stream()
                .filter(reason -> reason.kind().side() != RequirementKind.Side.SUPPLY
                        && reason.result().bars())
                .toList();
    }

    /** What is wrong with the air that it hangs on. */
    public List<Reason> barringSupply() {
        return reasons.stream()
                .filter(reason -> reason.kind().side() == RequirementKind.Side.SUPPLY
                        && reason.result().bars())
                .toList();
    }

    /**
     * @param dossier of {@link #ANYBODY} and {@link #NO_TASK} with a set
     * @param at the instant judged, and known at
     */
    public static Readiness of(SiteId site, Dossier dossier, Instant at) {
        SetFile set = Objects.requireNonNull(dossier.set(), "readiness is asked for a set");
        WorkerId last = lastWearer(set, at);
        Judging forAnybody = judged(site, dossier, set, ANYBODY, at);
        if (last == null || !cleanBars(forAnybody.reasons())) {
            State state = kitBars(forAnybody.reasons()) ? State.NOT_READY : State.READY;
            return of(state, last, dossier, forAnybody, forAnybody.changesAt());
        }
        Judging forLast = judged(site, dossier, set, last, at);
        State state = kitBars(forLast.reasons()) ? State.NOT_READY : State.READY_FOR_LAST_WEARER;
        Instant until = earlier(forAnybody.changesAt(), forLast.changesAt());
        return of(state, last, dossier, forAnybody, until);
    }

    private static Readiness of(State state, @Nullable WorkerId last, Dossier dossier, Judging judged, Instant until) {
        List<ClearBy> clearBy = ClearingActions.of(judged.question, dossier, judged.reasons(), null);
        return new Readiness(state, last, judged.reasons(), clearBy, until);
    }

    private static Judging judged(SiteId site, Dossier dossier, SetFile set, WorkerId worker, Instant at) {
        Question question = Question.ofSet(site, worker, NO_TASK, set.id(), new Interval(at, at.plusSeconds(1)), at);
        Judging judging = new Judging(question, dossier, at, Judging.Sight.WITHOUT_MEDICAL);
        Assessment.judgeShelf(judging, set);
        return judging;
    }

    private static boolean cleanBars(List<Reason> reasons) {
        return reasons.stream()
                .anyMatch(reason -> reason.kind() == RequirementKind.CLEAN
                        && reason.result().bars());
    }

    private static boolean kitBars(List<Reason> reasons) {
        return reasons.stream()
                .anyMatch(reason -> reason.kind().side() != RequirementKind.Side.SUPPLY
                        && reason.result().bars());
    }

    /** Whoever wore it, donned it or had it in hand last; an issue that came back unworn does not count. */
    private static @Nullable WorkerId lastWearer(SetFile set, Instant at) {
        List<Told<? extends Fact>> seen = new ArrayList<>();
        set.wears().forEach(seen::add);
        set.preUseChecks().forEach(seen::add);
        Told<Custody> returned = null;
        for (Told<Custody> told : set.custody()) {
            if (told.from().isAfter(at)) {
                continue;
            }
            if (told.fact().claim() == Custody.Claim.RETURNED) {
                returned = told;
            } else if (told.fact().claim() == Custody.Claim.ISSUED) {
                if (returned == null || !Boolean.FALSE.equals(returned.fact().worn())) {
                    seen.add(told);
                }
                returned = null;
            }
        }
        Told<? extends Fact> last = null;
        for (Told<? extends Fact> told : seen) {
            if (!told.from().isAfter(at) && (last == null || told.from().isAfter(last.from()))) {
                last = told;
            }
        }
        if (last == null) {
            return null;
        }
        UUID worker = last.fact() instanceof Wear ? last.subject() : last.item();
        return worker == null ? null : new WorkerId(worker);
    }

    private static Instant earlier(Instant one, Instant other) {
        return one.isBefore(other) ? one : other;
    }
}
