package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * The judgement: may this worker do this task with this set, from this instant until that one, as known at one moment?
 *
 * <p>The interval is judged in pieces. A piece ends where evidence ends, a record begins, or a rule or decision changes;
 * within a piece nothing can change. The worst piece decides.
 */
public final class Assessment {

    /** A window is followed this many pieces beyond the plan; further than that nothing is promised. */
    private static final int FURTHEST = 60;

    private Assessment() {}

    /** Judges the whole question, for a reader who may see everything. */
    public static Answer judge(Question question, Dossier dossier) {
        return judge(question, dossier, Judging.Sight.WHOLE);
    }

    /**
     * Judges the whole question, and shows the reader what the reader may see.
     *
     * @param staff whether the worker is of the employer for whom the reader speaks
     */
    public static Answer judgeFor(Viewer viewer, Staff staff, Question question, Dossier dossier) {
        Answer whole = judge(question, dossier);
        return Wall.seesOutcome(viewer, question.worker(), staff)
                ? whole
                : Wall.shown(viewer, whole, judge(question, dossier, Judging.Sight.WITHOUT_MEDICAL));
    }

    private static Answer judge(Question question, Dossier dossier, Judging.Sight sight) {
        List<Piece> pieces = new ArrayList<>();
        Instant at = question.wear().from();
        while (at.isBefore(question.wear().until())) {
            Piece piece = piece(question, dossier, at, sight);
            pieces.add(piece);
            at = piece.until();
        }
        return Answers.of(question, dossier, pieces, beyond(question, dossier, pieces, sight));
    }

    /** The pieces after the plan, as long as it would still be cleared; the last one may be the first that is not. */
    private static List<Piece> beyond(Question question, Dossier dossier, List<Piece> pieces, Judging.Sight sight) {
        List<Piece> beyond = new ArrayList<>();
        Piece last = pieces.get(pieces.size() - 1);
        boolean cleared = true;
        for (Assessment.Piece piece : pieces) {
            cleared &= piece.verdict() != Verdict.NOT_CLEARED;
        }
        while (cleared && beyond.size() < FURTHEST && last.until().isBefore(dossier.horizon())) {
            last = piece(question, dossier, last.until(), sight);
            beyond.add(last);
            cleared = last.verdict() != Verdict.NOT_CLEARED;
        }
        return beyond;
    }

    /** One instant, good until the calendar or a later record may change it. */
    static Piece piece(Question question, Dossier dossier, Instant at, Judging.Sight sight) {
        Judging judging = new Judging(question, dossier, at, sight);
        judgeAll(judging);
        return new Piece(at, judging.changesAt(), judging.reasons(), judging.rules);
    }

    /** Whether the worker is of the employer for whom a reader speaks. */
    public enum Staff {
        OWN,
        OTHERS
    }

    /**
     * @param from included
     * @param until excluded; {@link Instant#MAX} when nothing known will change it
     */
    record Piece(Instant from, Instant until, List<Reason> reasons, InForce rules, Verdict verdict) {

        Piece(Instant from, Instant until, List<Reason> reasons, InForce rules) {
            this(from, until, reasons, rules, Verdict.of(reasons));
        }
    }

    private static void judgeAll(Judging judging) {
        PersonRequirements.posting(judging);
        PersonRequirements.holds(judging);
        TaskRequirements.triggers(judging);
        if (judging.model == null) {
            Told<TaskBasis> ignored = TaskRequirements.basis(judging, null);
            judging.add(Reason.of(
                            RequirementKind.INTERFACE,
                            Result.UNKNOWN,
                            Why.MISSING,
                            judging.dossier.model().code())
                    .record(ignored == null ? null : ignored.id()));
            return;
        }
        person(judging);
        Told<TaskBasis> basis = TaskRequirements.basis(judging, judging.demand(RequirementKind.BASIS));
        if (basis != null) {
            TaskRequirements.atmosphere(judging, basis);
            TaskRequirements.allowedInterface(judging, basis);
            TaskRequirements.adequacy(judging, basis);
            TaskRequirements.filter(judging, basis);
        }
        KitRequirements.battery(judging);
        SetFile set = judging.dossier.set();
        if (set == null) {
            noSetChosen(judging);
        } else {
            kit(judging, set);
        }
    }

    private static void person(Judging judging) {
        PersonRequirements.training(judging);
        if (judging.sight == Judging.Sight.WHOLE) {
            MedicalRequirements.outcome(judging);
            MedicalRequirements.symptoms(judging);
        }
        FitRequirement.fitTest(judging);
        PersonRequirements.hairAtSeal(judging);
        PersonRequirements.wearTime(judging);
    }

    private static void kit(Judging judging, SetFile set) {
        if (judging.setData == null) {
            judging.add(Reason.of(RequirementKind.KIT_HOLD, Result.UNKNOWN, Why.NOT_RECEIVED));
            return;
        }
        if (!judging.setData.fact().model().equals(judging.dossier.model().id())) {
            judging.add(Reason.of(RequirementKind.INTERFACE, Result.UNKNOWN, Why.OTHER_VARIANT, set.label())
                    .record(judging.setData.id()));
        }
        keptUp(judging, set);
        StartRequirements.issued(judging, set);
        StartRequirements.preUseCheck(judging, set);
        StartRequirements.placement(judging);
        SupplyRequirements.air(judging);
    }

    private static void keptUp(Judging judging, SetFile set) {
        KitRequirements.holds(judging, set);
        KitRequirements.parts(judging, set);
        KitRequirements.partLife(judging, set);
        FilterLife.schedule(judging, set);
        CareRequirements.examination(judging, set);
        CareRequirements.flow(judging, set);
        CareRequirements.clean(judging, set);
    }

    /** What the store keeps up, and the air: without person or task. */
    static void judgeShelf(Judging judging, SetFile set) {
        if (judging.model == null) {
            judging.add(Reason.of(
                    RequirementKind.INTERFACE,
                    Result.UNKNOWN,
                    Why.MISSING,
                    judging.dossier.model().code()));
            return;
        }
        keptUp(judging, set);
        KitRequirements.batteryTested(judging);
        SupplyRequirements.air(judging);
    }

    private static void noSetChosen(Judging judging) {
        for (RequirementKind kind : RequirementKind.values()) {
            if (kind.needsSet()) {
                judging.add(Reason.of(kind, Result.NO_SET_CHOSEN, Why.NO_SET));
            }
        }
    }

    /** The verdict at the question's first instant, as each kind of reader may see it, and until when it can be kept: for boards. */
    public static Map<Wall.View, Glance> glances(Set<Wall.View> views, Question question, Dossier dossier) {
        Judging judging = new Judging(question, dossier, question.wear().from(), Judging.Sight.WHOLE);
        judgeAll(judging);
        // a board's question begins later each time it is asked: with the next day, and as shifts end
        judging.watch(Days.endOf(judging.today, judging.zone));
        Worn.shiftEnds(judging).forEach(judging::watch);
        Piece piece = new Piece(judging.at, judging.changesAt(), judging.reasons(), judging.rules);
        Instant soon = Answers.dueSoonChanges(question, piece);
        Instant holdsUntil = soon.isBefore(piece.until()) ? soon : piece.until();
        Map<Wall.View, Glance> glances = new EnumMap<>(Wall.View.class);
        views.forEach(view -> glances.put(view, glance(view, question, dossier, piece, holdsUntil)));
        return glances;
    }

    private static Glance glance(Wall.View view, Question question, Dossier dossier, Piece piece, Instant holdsUntil) {
        List<Reason> reasons = Wall.shown(view, piece.reasons());
        Reason first = null;
        int open = 0;
        for (Reason reason : reasons) {
            if (reason.result().bars()) {
                open++;
            }
            if (reason.result().compareTo(Result.MET_WITH_CONDITIONS) >= 0
                    && (first == null || rank(reason) > rank(first))) {
                first = reason;
            }
        }
        Piece seen = new Piece(piece.from(), piece.until(), reasons, piece.rules());
        return new Glance(seen.verdict(), first, open, Answers.dueSoon(question, dossier, seen), holdsUntil);
    }

    /** Not met and unknown weigh alike: the order of requirements decides between them. */
    private static int rank(Reason reason) {
        return reason.result().bars() ? 1 : 0;
    }

    /**
     * @param first the first of the worst reasons, in the order in which they are judged; none when cleared without conditions
     * @param open how many reasons stand in the way
     * @param holdsUntil the next instant at which the calendar alone may change any of it, what is due soon included;
     *     {@link Instant#MAX} for never
     */
    public record Glance(
            Verdict verdict, @Nullable Reason first, int open, Answer.@Nullable DueSoon dueSoon, Instant holdsUntil) {}
}
