package org.hoodkeeper.assessment;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.rules.Term;
import org.hoodkeeper.rules.YearReading;
import org.jspecify.annotations.Nullable;

/** Puts the pieces of a judgement together. */
final class Answers {

    private static final Duration NOTICE = Duration.ofDays(30);
    /** Beyond it nothing is due. */
    private static final Instant FAR = Instant.parse("9999-01-01T00:00:00Z");

    private Answers() {}

    static Answer of(Question question, Dossier dossier, List<Assessment.Piece> pieces, List<Assessment.Piece> beyond) {
        WorstReasons worst = new WorstReasons(pieces);
        List<Reason> reasons = worst.reasons();
        Verdict verdict = Verdict.of(reasons);
        Answer.Window window = window(question, pieces, beyond, dossier.horizon());
        Answer.Window prefix = verdict == Verdict.NOT_CLEARED ? window : null;
        return new Answer(
                question,
                verdict,
                dueSoon(question, dossier, pieces.get(0)),
                reasons,
                worst.since(),
                window,
                prefix,
                ClearingActions.of(question, dossier, reasons, prefix),
                List.of(),
                ruleSets(pieces),
                yearReadings(pieces),
                decisions(reasons));
    }

    private static List<String> ruleSets(List<Assessment.Piece> pieces) {
        if (pieces.size() == 1) {
            return List.of(pieces.get(0).rules().ruleSet());
        }
        List<String> ruleSets = new ArrayList<>(2);
        for (Assessment.Piece piece : pieces) {
            if (!ruleSets.contains(piece.rules().ruleSet())) {
                ruleSets.add(piece.rules().ruleSet());
            }
        }
        return ruleSets;
    }

    private static List<YearReading> yearReadings(List<Assessment.Piece> pieces) {
        if (pieces.size() == 1) {
            return List.of(pieces.get(0).rules().yearReading());
        }
        List<YearReading> readings = new ArrayList<>(2);
        for (Assessment.Piece piece : pieces) {
            if (!readings.contains(piece.rules().yearReading())) {
                readings.add(piece.rules().yearReading());
            }
        }
        return readings;
    }

    private static Answer.@Nullable Window window(
            Question question, List<Assessment.Piece> pieces, List<Assessment.Piece> beyond, Instant horizon) {
        Instant end = question.wear().from();
        boolean conditions = false;
        RequirementKind endedBy = null;
        int count = pieces.size() + beyond.size();
        for (int i = 0; i < count && endedBy == null; i++) {
            Assessment.Piece piece = i < pieces.size() ? pieces.get(i) : beyond.get(i - pieces.size());
            if (piece.verdict() == Verdict.NOT_CLEARED) {
                endedBy = firstBar(piece);
            } else {
                conditions |= piece.verdict() == Verdict.CLEARED_WITH_CONDITIONS;
                end = piece.until();
            }
        }
        if (end.isAfter(horizon)) {
            end = horizon;
            endedBy = null;
        }
        return end.equals(question.wear().from())
                ? null
                : new Answer.Window(new Interval(question.wear().from(), end), conditions, endedBy);
    }

    private static @Nullable RequirementKind firstBar(Assessment.Piece piece) {
        for (Reason reason : piece.reasons()) {
            if (reason.result().bars()) {
                return reason.kind();
            }
        }
        return null;
    }

    /**
     * What ends within the site's notice period. A requirement with a short rhythm gives notice in its last quarter only, so
     * that a weekly one is not "due soon" every day of its life.
     */
    static Answer.@Nullable DueSoon dueSoon(Question question, Dossier dossier, Assessment.Piece first) {
        Duration notice = notice(first);
        Reason soonest = null;
        for (Reason reason : first.reasons()) {
            Instant end = reason.goodUntil();
            if (end == null || isOfTheShift(reason)) {
                continue;
            }
            boolean soon = !question.wear().from().plus(shorter(notice, reason)).isBefore(end);
            if (soon && (soonest == null || end.isBefore(endOf(soonest)))) {
                soonest = reason;
            }
        }
        return soonest == null
                ? null
                : new Answer.DueSoon(soonest.kind(), Days.of(endOf(soonest).minusNanos(1), dossier.zone()));
    }

    /** The next instant at which something begins to be due soon; {@link Instant#MAX} for none. */
    static Instant dueSoonChanges(Question question, Assessment.Piece piece) {
        Duration notice = notice(piece);
        Instant next = Instant.MAX;
        for (Reason reason : piece.reasons()) {
            Instant end = reason.goodUntil();
            if (end != null && end.isBefore(FAR) && !isOfTheShift(reason)) {
                Instant begins = end.minus(shorter(notice, reason));
                next = begins.isAfter(question.wear().from()) && begins.isBefore(next) ? begins : next;
            }
        }
        return next;
    }

    private static Duration notice(Assessment.Piece piece) {
        InForce.Decided decided = piece.rules().decision("notice.period");
        return decided == null ? NOTICE : Duration.ofDays(decided.term().roughDays());
    }

    private static Instant endOf(Reason reason) {
        return reason.goodUntil() == null ? Instant.MAX : reason.goodUntil();
    }

    private static Duration shorter(Duration notice, Reason reason) {
        Term term = reason.demand() == null ? null : reason.demand().term();
        if (term == null) {
            return notice;
        }
        Duration quarter = Duration.ofHours(term.roughDays() * 6);
        return quarter.compareTo(notice) < 0 ? quarter : notice;
    }

    /** Ends with the stint or with the plan, not with the life of evidence: said in the window, not as a date. */
    private static boolean isOfTheShift(Reason reason) {
        return reason.kind().isAtStart()
                || reason.kind() == RequirementKind.BATTERY
                || reason.kind() == RequirementKind.FILTER_LIFE
                || reason.kind() == RequirementKind.POSTING
                || reason.why() == Why.WEAR_LIMIT;
    }

    private static List<RecordId> decisions(List<Reason> reasons) {
        List<RecordId> decisions = new ArrayList<>(4);
        for (Reason reason : reasons) {
            RecordId decided = reason.demand() == null ? null : reason.demand().decided();
            if (decided != null && !decisions.contains(decided)) {
                decisions.add(decided);
            }
        }
        return decisions;
    }
}
