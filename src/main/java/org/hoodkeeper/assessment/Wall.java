package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * What a reader may see of an answer. For a reader without the right, everything medical collapses into one line, the same for
 * none, overdue, unfit and limit reached, without record or date; what is in place is not told apart from what is not
 * required, and the window shown ends at the earliest end that is not medical. A supervisor sees the limits to supervise.
 */
public final class Wall {

    private static final Set<Why> LIMITS = EnumSet.of(
            Why.WEAR_LIMIT,
            Why.HEAT_LIMIT,
            Why.WORK_RATE_LIMIT,
            Why.NEVER_ALONE,
            Why.INTERFACES_ONLY,
            Why.INTERFACE_EXCLUDED);

    private Wall() {}

    /** Full sight of the outcome: the person, the health role, the officer; an employer for its own staff. */
    public static boolean seesOutcome(Viewer viewer, WorkerId worker, Assessment.Staff staff) {
        return viewer.isSelf(worker)
                || seesEveryOutcome(viewer)
                || (viewer.is(Role.EMPLOYER) && staff == Assessment.Staff.OWN);
    }

    /** Full sight of everybody's outcome: the health role, the officer. */
    public static boolean seesEveryOutcome(Viewer viewer) {
        return viewer.isAny(Role.HEALTH, Role.OFFICER);
    }

    /**
     * @param whole the answer with everything
     * @param without the answer with the medical requirements left out
     */
    static Answer shown(Viewer viewer, Answer whole, Answer without) {
        List<Line> lines = new ArrayList<>();
        for (int i = 0; i < without.reasons().size(); i++) {
            lines.add(new Line(without.reasons().get(i), without.since().get(i)));
        }
        List<Reason> medical = whole.reasons().stream()
                .filter(reason -> reason.kind().isMedical())
                .toList();
        Instant start = whole.question().wear().from();
        List<Reason> visible = collapsed(viewer.is(Role.SUPERVISOR) ? View.LIMITS : View.COLLAPSED, medical);
        boolean hidden = visible.stream().anyMatch(reason -> reason.why() == Why.ASK_OFFICER);
        visible.forEach(reason -> lines.add(new Line(reason, start)));
        lines.sort(Comparator.comparing(line -> line.reason().kind()));
        boolean barred = medical.stream().anyMatch(reason -> reason.result().bars());
        Answer.Window prefix = barred ? (hidden ? null : whole.prefix()) : without.prefix();
        Answer.Window window = barred ? prefix : without.window();
        return answer(whole, without, lines, window, prefix, barred);
    }

    /** How much of what is medical a reader sees of one person. */
    public enum View {
        WHOLE,
        /** A supervisor: the limits to supervise, and one line for the rest. */
        LIMITS,
        COLLAPSED
    }

    /** @param staff whether the worker is of the employer for whom the reader speaks */
    public static View view(Viewer viewer, WorkerId worker, Assessment.Staff staff) {
        if (seesOutcome(viewer, worker, staff)) {
            return View.WHOLE;
        }
        return viewer.is(Role.SUPERVISOR) ? View.LIMITS : View.COLLAPSED;
    }

    /** The reasons of one instant, as a reader may see them. */
    static List<Reason> shown(View view, List<Reason> reasons) {
        if (view == View.WHOLE) {
            return reasons;
        }
        List<Reason> shown = new ArrayList<>();
        List<Reason> medical = new ArrayList<>();
        for (Reason reason : reasons) {
            (reason.kind().isMedical() ? medical : shown).add(reason);
        }
        shown.addAll(0, collapsed(view, medical));
        return shown;
    }

    private static List<Reason> collapsed(View view, List<Reason> medical) {
        List<Reason> visible = new ArrayList<>();
        boolean hidden = false;
        for (Reason reason : medical) {
            if (view == View.LIMITS && LIMITS.contains(reason.why())) {
                visible.add(limitOnly(reason));
            } else {
                hidden |= reason.result().bars();
            }
        }
        if (hidden) {
            visible.add(Reason.of(RequirementKind.MEDICAL, Result.NOT_MET, Why.ASK_OFFICER));
        }
        return visible;
    }

    private record Line(Reason reason, Instant since) {}

    private static Answer answer(
            Answer whole,
            Answer without,
            List<Line> lines,
            Answer.@Nullable Window window,
            Answer.@Nullable Window prefix,
            boolean barred) {
        List<Reason> reasons = lines.stream().map(Line::reason).toList();
        List<ClearBy> clearBy = new ArrayList<>(without.clearBy());
        if (barred) {
            clearBy.removeIf(action -> action.action() == ClearBy.Action.LEAVE_BEFORE);
            if (prefix != null && prefix.endedBy() != null) {
                clearBy.add(ClearingActions.leaveBefore(
                        prefix.endedBy(), prefix.interval().until()));
            }
            for (Reason reason : reasons) {
                // chosen from the line that is shown, without the day of a booked seat
                ClearBy clears = ClearingActions.clearing(reason.kind(), reason.why());
                if (reason.kind().isMedical() && reason.result().bars() && !clearBy.contains(clears)) {
                    clearBy.add(clears);
                }
            }
        }
        return new Answer(
                whole.question(),
                Verdict.of(reasons),
                without.dueSoon(),
                reasons,
                lines.stream().map(Line::since).toList(),
                window,
                prefix,
                clearBy,
                whole.alternatives(),
                without.ruleSets(),
                without.yearReadings(),
                without.decisions());
    }

    /** The figure to supervise, without record, rule or instant. */
    private static Reason limitOnly(Reason reason) {
        List<Object> figure = reason.details().isEmpty()
                ? List.of()
                : List.of(reason.details().get(0));
        return new Reason(reason.kind(), reason.result(), reason.why(), figure, null, null, null);
    }
}
