package org.hoodkeeper.oversight;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.RunningWriters;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.StoredAnswers;
import org.hoodkeeper.reporting.WearBook;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Each wear with the verdict that the screen gave when it began and the one that it gets as known now. A cache: what was said then
 * never changes; what is known now is judged again when something is told that could touch it.
 */
@Component
@Transactional
class JudgedWears {

    /** Wears of the time before the site kept its record here: there was no screen that could have said no. */
    static final String NO_SCREEN = "NO_SCREEN";

    private static final Duration LONGEST = Duration.ofHours(24);

    /** Told since a wear was judged, and true before its end; what it replaced counts with it. */
    private static final String TOUCHED_SINCE = """
            with oldest as materialized (
                select min(judged_at) as at from judged_wear where site_id = ? and wear_from >= ? and wear_from < ?),
            fresh as materialized (
                select r.kind, r.subject, r.item, r.true_from, r.recorded_at
                from ledger_entry e
                join ledger_record r on r.site_id = e.site_id and r.entry_id = e.id
                where e.site_id = ? and e.recorded_at > (select at from oldest) and r.kind <> all(?)
                union all
                select o.kind, o.subject, o.item, o.true_from, r.recorded_at
                from ledger_entry e
                join ledger_record r on r.site_id = e.site_id and r.entry_id = e.id
                join ledger_record o on o.site_id = r.site_id and o.id = r.corrects
                where e.site_id = ? and e.recorded_at > (select at from oldest))
            select j.wear_id from judged_wear j
            where j.site_id = ? and j.wear_from >= ? and j.wear_from < ?
              and (j.wear_until is null
                   or j.judged_at < (select max(loaded_at) from rule_set)
                   or exists (
                       select 1 from fresh f
                       where f.recorded_at > j.judged_at
                         and (f.kind = any(?)
                              or (f.true_from < j.wear_until
                                  and (f.subject in (j.worker_id, j.set_id, j.task_id, j.site_id)
                                       or f.item in (j.worker_id, j.set_id)
                                       or f.kind = any(?))))))""";

    /** They rest on the wear, and it does not rest on them. */
    private static final Integer[] ABOUT_IT_ONLY = {Kind.FINDING.number(), Kind.LOOK_BACK.number()};

    /** A calibration speaks of readings before it. */
    private static final Integer[] OF_ANY_TIME = {Kind.CALIBRATION.number()};

    /** About things that a wear does not name itself: models, supplies, and what hangs on them. */
    private static final Integer[] OF_OTHER_THINGS = {
        Kind.MODEL.number(), Kind.AIR_TEST.number(), Kind.SUPPLY_MOVE.number(), Kind.HOLD.number()
    };

    private final WearBook book;
    private final Questions questions;
    private final StoredAnswers stored;
    private final KnowledgeClock clock;
    private final JdbcTemplate jdbc;

    JudgedWears(WearBook book, Questions questions, StoredAnswers stored, KnowledgeClock clock, JdbcTemplate jdbc) {
        this.book = book;
        this.questions = questions;
        this.stored = stored;
        this.clock = clock;
        this.jdbc = jdbc;
    }

    /**
     * @param then what the screen said; none where there was no screen yet
     * @param isStored the gate's own answer was kept; else it is computed anew from what was known
     * @param barredThen requirements that stood in the way then
     * @param barredNow the same as known now
     */
    record Judged(
            Worn worn,
            @Nullable Verdict then,
            boolean isStored,
            List<String> barredThen,
            Verdict now,
            List<String> barredNow) {}

    /** What is in the cache of wears that begin in a period, oldest first. */
    List<Judged> of(SiteId site, Instant from, Instant until) {
        return jdbc.query(
                """
                select wear_id, exit_id, root_id, worker_id, set_id, task_id, wear_from, wear_until, told_at, then_verdict,
                       then_stored, then_barred, now_verdict, now_barred
                from judged_wear where site_id = ? and wear_from >= ? and wear_from < ? order by wear_from, wear_id""",
                (row, n) -> judged(row),
                site.value(),
                from.atOffset(ZoneOffset.UTC),
                until.atOffset(ZoneOffset.UTC));
    }

    /** Whether no more wears than so many began since. */
    boolean isFew(SiteId site, Instant since, int few) {
        Integer count = jdbc.queryForObject(
                """
                select count(*) from (select 1 from ledger_record
                                      where site_id = ? and kind = ? and true_from >= ? limit ?) wears""", Integer.class, site.value(), Kind.WEAR.number(), since.atOffset(ZoneOffset.UTC), few + 1);
        return count == null || count <= few;
    }

    /**
     * Judges what is new or was touched since, at most so many, the newest first.
     *
     * @return how many are left to judge
     */
    int refresh(SiteId site, Instant from, Instant until, int most) {
        // what somebody is still writing was told before now and is not seen yet: it has to count as news next time
        Instant seen = RunningWriters.toldFrom(jdbc);
        Instant now = clock.now();
        Instant judgedAt = seen.isBefore(now) ? seen : now;
        List<Worn> worn = book.of(site, from, until);
        forget(site, worn, from, until);
        Map<UUID, @Nullable UUID> known = new HashMap<>();
        jdbc.query(
                "select wear_id, exit_id from judged_wear where site_id = ? and wear_from >= ? and wear_from < ?",
                row -> {
                    known.put(row.getObject(1, UUID.class), row.getObject(2, UUID.class));
                },
                site.value(),
                from.atOffset(ZoneOffset.UTC),
                until.atOffset(ZoneOffset.UTC));
        Set<UUID> touched = touched(site, from, until);
        Instant screen = screenSince(site);
        int judged = 0;
        int left = 0;
        for (int i = worn.size() - 1; i >= 0; i--) {
            Worn one = worn.get(i);
            UUID id = one.entry().value();
            boolean same = known.containsKey(id)
                    && Objects.equals(
                            known.get(id),
                            one.exit() == null ? null : one.exit().value());
            if (same && !touched.contains(id)) {
                continue;
            }
            if (judged == most) {
                left++;
                continue;
            }
            judge(site, one, screen, now, judgedAt);
            judged++;
        }
        if (left == 0) {
            jdbc.update(
                    "update judged_wear set judged_at = ? where site_id = ? and wear_from >= ? and wear_from < ? and judged_at < ?",
                    judgedAt.atOffset(ZoneOffset.UTC),
                    site.value(),
                    from.atOffset(ZoneOffset.UTC),
                    until.atOffset(ZoneOffset.UTC),
                    judgedAt.atOffset(ZoneOffset.UTC));
        }
        return left;
    }

    /** When the first record of the site was told; none yet: never. */
    private Instant screenSince(SiteId site) {
        Timestamp first = jdbc.queryForObject(
                "select min(recorded_at) from ledger_entry where site_id = ?", Timestamp.class, site.value());
        return first == null ? Instant.MAX : first.toInstant();
    }

    /** Versions that were corrected or withdrawn since stand no more. */
    private void forget(SiteId site, List<Worn> worn, Instant from, Instant until) {
        jdbc.update(
                "delete from judged_wear where site_id = ? and wear_from >= ? and wear_from < ? and not wear_id = any(?)",
                site.value(),
                from.atOffset(ZoneOffset.UTC),
                until.atOffset(ZoneOffset.UTC),
                worn.stream().map(one -> one.entry().value()).toArray(UUID[]::new));
    }

    private Set<UUID> touched(SiteId site, Instant from, Instant until) {
        UUID id = site.value();
        return new HashSet<>(jdbc.queryForList(
                TOUCHED_SINCE,
                UUID.class,
                id,
                from.atOffset(ZoneOffset.UTC),
                until.atOffset(ZoneOffset.UTC),
                id,
                ABOUT_IT_ONLY,
                id,
                id,
                from.atOffset(ZoneOffset.UTC),
                until.atOffset(ZoneOffset.UTC),
                OF_ANY_TIME,
                OF_OTHER_THINGS));
    }

    private void judge(SiteId site, Worn worn, Instant screen, Instant now, Instant judgedAt) {
        Interval wear = worn.judged(now);
        boolean seen = !worn.from().isBefore(screen);
        Verdict gate = seen ? stored.atGate(site, worn.entry()) : null;
        Outcome then = seen ? outcome(site, worn, wear, worn.from(), Question.Start.AHEAD) : null;
        Outcome known = outcome(site, worn, wear, now, Question.Start.BEGUN);
        jdbc.update(
                """
                insert into judged_wear (site_id, wear_id, exit_id, root_id, worker_id, set_id, task_id, wear_from, wear_until,
                                         told_at, then_verdict, then_barred, then_stored, now_verdict, now_barred, judged_at)
                values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
                on conflict (site_id, wear_id) do update set
                    exit_id = excluded.exit_id, wear_until = excluded.wear_until, then_verdict = excluded.then_verdict,
                    then_barred = excluded.then_barred, then_stored = excluded.then_stored,
                    now_verdict = excluded.now_verdict, now_barred = excluded.now_barred, judged_at = excluded.judged_at""",
                site.value(),
                worn.entry().value(),
                worn.exit() == null ? null : worn.exit().value(),
                worn.root().value(),
                worn.worker().value(),
                worn.set().value(),
                worn.task().value(),
                worn.from().atOffset(ZoneOffset.UTC),
                settled(worn, now),
                worn.toldAt().atOffset(ZoneOffset.UTC),
                gate != null
                        ? gate.name()
                        : then == null ? NO_SCREEN : then.verdict().name(),
                then == null ? new String[0] : then.barred(),
                gate != null,
                known.verdict().name(),
                known.barred(),
                judgedAt.atOffset(ZoneOffset.UTC));
    }

    /** An open wear is judged again and again until its exit is told, or counts as forgotten. */
    private static @Nullable OffsetDateTime settled(Worn worn, Instant now) {
        Instant end = worn.until();
        if (end == null && now.isAfter(worn.from().plus(LONGEST))) {
            end = worn.from().plus(LONGEST);
        }
        return end == null ? null : end.atOffset(ZoneOffset.UTC);
    }

    private record Outcome(Verdict verdict, String[] barred) {}

    /** A set that the site had not been told of by then could not be cleared for anybody. */
    private Outcome outcome(SiteId site, Worn worn, Interval wear, Instant knownAt, Question.Start start) {
        Question question = Question.ofSet(site, worn.worker(), worn.task(), worn.set(), wear, knownAt);
        Answer answer = questions.wholeIfTold(start == Question.Start.AHEAD ? question.atTheDoor() : question);
        if (answer == null) {
            return new Outcome(Verdict.NOT_CLEARED, new String[0]);
        }
        return new Outcome(
                answer.verdict(),
                answer.reasons().stream()
                        .filter(reason -> reason.result().bars())
                        .map(Reason::kind)
                        .map(Enum::name)
                        .distinct()
                        .toArray(String[]::new));
    }

    private static Judged judged(ResultSet row) throws SQLException {
        Timestamp until = row.getTimestamp(8);
        UUID exit = row.getObject(2, UUID.class);
        Worn worn = new Worn(
                new RecordId(row.getObject(1, UUID.class)),
                exit == null ? null : new RecordId(exit),
                new RecordId(row.getObject(3, UUID.class)),
                new WorkerId(row.getObject(4, UUID.class)),
                new SetId(row.getObject(5, UUID.class)),
                new TaskId(row.getObject(6, UUID.class)),
                row.getTimestamp(7).toInstant(),
                until == null ? null : until.toInstant(),
                row.getTimestamp(9).toInstant());
        String then = row.getString(10);
        return new Judged(
                worn,
                then.equals(NO_SCREEN) ? null : Verdict.valueOf(then),
                row.getBoolean(11),
                strings(row, 12),
                Verdict.valueOf(row.getString(13)),
                strings(row, 14));
    }

    private static List<String> strings(ResultSet row, int column) throws SQLException {
        return Arrays.asList((String[]) row.getArray(column).getArray());
    }
}
