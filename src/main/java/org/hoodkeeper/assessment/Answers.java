package org.hoodkeeper.assessment;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.rules.Term;
import org.jspecify.annotations.Nullable;

/** Puts the pieces of a judgement together. */
final class Answers {

    private static final Duration NOTICE = Duration.ofDays(30);
    /** Beyond it nothing is due. */
    private static final Instant FAR = Instant.parse("9999-01-01T00:00:00Z");

    private Answers() {}

    static Answer of(Question question, Dossier dossier, List<Assessment.Piece> pieces, List<Assessment.Piece> beyond) {
        Map<RequirementKind, Map<Key, Seen>> worst = worst(pieces);
        List<Reason> reasons = new ArrayList<>();
        List<Instant> since = new ArrayList<>();
        for (Map<Key, Seen> seen : worst.values()) {
            for (Seen one : seen.values()) {
                reasons.add(one.reason());
                since.add(one.since());
            }
        }
        Verdict verdict = Verdict.of(reasons);
        List<Assessment.Piece> all = new ArrayList<>(pieces);
        all.addAll(beyond);
        Answer.Window window = window(question, all, dossier.horizon());
        Answer.Window prefix = verdict == Verdict.NOT_CLEARED ? window : null;
        return new Answer(
                question,
                verdict,
                dueSoon(question, dossier, pieces.get(0)),
                reasons,
                since,
                window,
                prefix,
                ClearingActions.of(question, dossier, reasons, prefix),
                List.of(),
                pieces.stream().map(piece -> piece.rules().ruleSet()).distinct().toList(),
                pieces.get(0).rules().yearReading(),
                decisions(reasons));
    }

    /** One reason however often it comes back; the figures tell two of a kind apart. */
    private record Key(Result result, Why why, @Nullable RecordId record, List<Object> details) {}

    private record Seen(Reason reason, Instant since) {}

    /** For each requirement the reasons at its worst; conditions are kept beside a refusal. */
    private static Map<RequirementKind, Map<Key, Seen>> worst(List<Assessment.Piece> pieces) {
        Map<RequirementKind, Map<Key, Seen>> worst = new EnumMap<>(RequirementKind.class);
        for (Assessment.Piece piece : pieces) {
            for (Reason reason : piece.reasons()) {
                Key key = new Key(reason.result(), reason.why(), reason.record(), reason.details());
                worst.computeIfAbsent(reason.kind(), kind -> new LinkedHashMap<>())
                        .putIfAbsent(key, new Seen(reason, piece.from()));
            }
        }
        for (Map<Key, Seen> seen : worst.values()) {
            Result limit = seen.values().stream()
                    .map(one -> one.reason().result())
                    .max(Comparator.naturalOrder())
                    .orElse(Result.MET);
            Result keep = limit.bars() ? Result.MET_WITH_CONDITIONS : limit;
            seen.values()
                    .removeIf(one -> one.reason().result().compareTo(keep) < 0
                            && one.reason().why() != Why.INTERFACES_ONLY);
        }
        return worst;
    }

    private static Answer.@Nullable Window window(Question question, List<Assessment.Piece> pieces, Instant horizon) {
        Instant end = question.wear().from();
        boolean conditions = false;
        RequirementKind endedBy = null;
        for (Assessment.Piece piece : pieces) {
            if (piece.verdict() == Verdict.NOT_CLEARED) {
                endedBy = firstBar(piece);
                break;
            }
            conditions |= piece.verdict() == Verdict.CLEARED_WITH_CONDITIONS;
            end = piece.until();
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
        return decided == null ? NOTICE : noticeOf(decided.value());
    }

    private static Instant endOf(Reason reason) {
        return reason.goodUntil() == null ? Instant.MAX : reason.goodUntil();
    }

    private static Duration noticeOf(String period) {
        Term term = Term.of(period);
        return Duration.ofDays(
                switch (term.unit()) {
                    case DAYS -> term.amount();
                    case MONTHS -> term.amount() * 30L;
                    case YEARS -> term.amount() * 365L;
                });
    }

    private static Duration shorter(Duration notice, Reason reason) {
        Term term = reason.demand() == null ? null : reason.demand().term();
        if (term == null) {
            return notice;
        }
        Duration quarter = noticeOf(term.toString()).dividedBy(4);
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
        Set<RecordId> decisions = new LinkedHashSet<>();
        for (Reason reason : reasons) {
            if (reason.demand() != null && reason.demand().decided() != null) {
                decisions.add(reason.demand().decided());
            }
        }
        return List.copyOf(decisions);
    }
}
