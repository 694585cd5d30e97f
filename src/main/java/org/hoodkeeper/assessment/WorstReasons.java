package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.rules.RequirementKind;

/**
 * For each requirement the reasons at its worst, from all pieces of an interval; conditions are kept beside a refusal. One reason
 * however often it comes back: the figures tell two of a kind apart. In the order of the requirements, within one as they came.
 */
final class WorstReasons {

    private static final int KINDS = RequirementKind.values().length;

    private final List<Reason> reasons;
    private final List<Instant> since;
    private final Result[] worst = new Result[KINDS];

    WorstReasons(List<Assessment.Piece> pieces) {
        int first = pieces.get(0).reasons().size();
        reasons = new ArrayList<>(first);
        since = new ArrayList<>(first);
        for (Assessment.Piece piece : pieces) {
            for (Reason reason : piece.reasons()) {
                see(reason, piece.from());
            }
        }
        keepWorst();
    }

    List<Reason> reasons() {
        return reasons;
    }

    /** When each reason begins. */
    List<Instant> since() {
        return since;
    }

    /** They come almost in order, so that its place is looked for from the end. */
    private void see(Reason reason, Instant from) {
        int kind = reason.kind().ordinal();
        int place = reasons.size();
        while (place > 0 && reasons.get(place - 1).kind().ordinal() > kind) {
            place--;
        }
        Result before = worst[kind];
        for (int i = place - 1;
                before != null && i >= 0 && reasons.get(i).kind().ordinal() == kind;
                i--) {
            if (isSame(reasons.get(i), reason)) {
                return;
            }
        }
        reasons.add(place, reason);
        since.add(place, from);
        worst[kind] = before == null || reason.result().compareTo(before) > 0 ? reason.result() : before;
    }

    private static boolean isSame(Reason one, Reason other) {
        return one.result() == other.result()
                && one.why() == other.why()
                && java.util.Objects.equals(one.record(), other.record())
                && one.details().equals(other.details());
    }

    private void keepWorst() {
        int kept = 0;
        for (int i = 0; i < reasons.size(); i++) {
            Reason reason = reasons.get(i);
            if (isKept(reason)) {
                reasons.set(kept, reason);
                since.set(kept, since.get(i));
                kept++;
            }
        }
        reasons.subList(kept, reasons.size()).clear();
        since.subList(kept, since.size()).clear();
    }

    private boolean isKept(Reason reason) {
        Result limit = worst[reason.kind().ordinal()];
        Result keep = limit.bars() ? Result.MET_WITH_CONDITIONS : limit;
        return reason.result().compareTo(keep) >= 0 || reason.why() == Why.INTERFACES_ONLY;
    }
}
