package org.hoodkeeper.oversight;

import java.sql.Timestamp;
import java.sql.Types;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.StoredAnswers.Purpose;
import org.hoodkeeper.reporting.WearBook;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * What rested on a record until another one took its place: answers that somebody acted on, wears, files that were issued, and
 * assessments that weighed it. An exposure result or a limit is seldom named itself: what rested on an assessment that weighed it,
 * or on another result of the same substance and task, which the statistic is made of, rested on it too. Nor is a calibration, or
 * what a set is: what rested on a reading of the instrument, or was answered about the set, rested on these.
 * Verdicts alone, never why: that is for each reader's own pages.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Consequences {

    /** As many wears as one page judges, the newest; the rest is counted. */
    static final int MOST_WEARS = 120;

    private static final int MOST_ANSWERS = 200;

    /** A calibration speaks of readings before it; an instrument is calibrated at least every two years. From memory. */
    private static final Duration BEFORE_CALIBRATION = Duration.ofDays(731);

    /** After every moment of which a record speaks. */
    private static final Instant NEVER = Instant.parse("9999-12-31T00:00:00Z");

    private static final Duration LONGEST_WEAR = Duration.ofHours(24);

    private final History history;
    private final WearBook wears;
    private final Questions questions;
    private final KnowledgeClock clock;
    private final JdbcTemplate jdbc;
    private final NamedParameterJdbcTemplate named;

    Consequences(
            History history,
            WearBook wears,
            Questions questions,
            KnowledgeClock clock,
            JdbcTemplate jdbc,
            NamedParameterJdbcTemplate named) {
        this.history = history;
        this.wears = wears;
        this.questions = questions;
        this.clock = clock;
        this.jdbc = jdbc;
        this.named = named;
    }

    /**
     * An answer that somebody acted on while the record stood.
     *
     * @param by who asked
     * @param then the verdict that was given
     * @param now the verdict that the same question gets now; none where it cannot be asked again
     */
    public record Given(
            Purpose purpose,
            Instant askedAt,
            AccountId by,
            WorkerId worker,
            TaskId task,
            @Nullable SetId set,
            Verdict then,
            @Nullable Verdict now) {

        public boolean isFlipped() {
            return now != null && now != then;
        }
    }

    /** A wear with its verdict just before the record was replaced, and just after. */
    public record Touched(Worn worn, Verdict before, Verdict after) {

        public boolean isFlipped() {
            return before != after;
        }
    }

    /** @param about what the file was of */
    public record Issued(UUID id, Instant at, AccountId by, String about) {}

    /** An exposure assessment that weighed a result, or set its figures against a limit, while that stood. */
    public record Assessed(RecordId id, TaskId task, Instant from, Instant told, AccountId by) {}

    /** @param notJudged wears that could have been touched and are too many for one page */
    public record All(
            Instant from,
            Instant until,
            List<Assessed> assessments,
            List<Given> answers,
            List<Touched> wears,
            int notJudged,
            List<Issued> files) {

        public boolean isEmpty() {
            return assessments.isEmpty() && answers.isEmpty() && wears.isEmpty() && notJudged == 0 && files.isEmpty();
        }
    }

    /**
     * To somebody who has no other role than the worker's: what that worker wore and was told, and nobody else's; no files.
     *
     * @param replaced a record that was corrected or withdrawn; one that stands touched nothing yet
     */
    public All of(Viewer viewer, History.Version replaced) {
        Instant now = clock.now();
        History.Version next =
                replaced.replacedBy() == null ? null : history.find(viewer.site(), replaced.replacedBy(), now);
        Instant told = replaced.told().recordedAt();
        if (next == null) {
            return new All(told, now, List.of(), List.of(), List.of(), 0, List.of());
        }
        Instant until = next.told().recordedAt();
        List<Worn> possible = possible(viewer.site(), replaced, next, until, now).stream()
                .filter(worn -> isSeen(viewer, worn.worker()))
                .toList();
        List<Assessed> assessments = assessments(viewer.site(), replaced, told, until);
        Under under = under(viewer.site(), replaced, assessments, until);
        List<Worn> looked = possible.subList(0, Math.min(possible.size(), MOST_WEARS));
        List<Touched> touched = new ArrayList<>();
        for (Worn worn : looked) {
            Touched one = touched(viewer.site(), under, worn, until, now);
            if (one != null) {
                touched.add(one);
            }
        }
        return new All(
                told,
                until,
                seesOthers(viewer) ? assessments : List.of(),
                answers(viewer.site(), replaced, under, told, until, now).stream()
                        .filter(given -> isSeen(viewer, given.worker()))
                        .toList(),
                touched,
                possible.size() - looked.size(),
                seesOthers(viewer) ? files(viewer.site(), under.records(), told, until) : List.of());
    }

    private static boolean seesOthers(Viewer viewer) {
        return viewer.isAny(Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST);
    }

    private static boolean isSeen(Viewer viewer, WorkerId worker) {
        return seesOthers(viewer) || viewer.isSelf(worker);
    }

    /** Of what a set is, those that began before it was replaced: whoever went in later went in on what is right. */
    private List<Worn> possible(
            SiteId site, History.Version old, History.Version next, Instant replacedAt, Instant now) {
        Instant one = old.told().from();
        Instant other = next.told().from();
        Instant from = (one.isBefore(other) ? one : other).minus(LONGEST_WEAR);
        if (old.kind() == Kind.CALIBRATION) {
            from = from.minus(BEFORE_CALIBRATION);
        }
        Instant last = isOfSets(old.kind()) && replacedAt.isBefore(now) ? replacedAt : now;
        Set<UUID> ids =
                new LinkedHashSet<>(List.of(old.told().subject(), next.told().subject()));
        List<Worn> found =
                old.kind().subject() == Subject.SITE ? wears.of(site, from, last) : wears.about(site, ids, from, last);
        return found.stream()
                .sorted(Comparator.comparing(Worn::from).reversed())
                .toList();
    }

    private static boolean isOfSets(Kind kind) {
        return switch (kind) {
            case SET, MODEL, PART_CHANGE -> true;
            default -> false;
        };
    }

    /** Assessments told while it stood: of a result those of its task that begin after the sample, of a limit those that name it. */
    private List<Assessed> assessments(SiteId site, History.Version old, Instant told, Instant until) {
        String which =
                switch (old.kind()) {
                    case EXPOSURE_RESULT -> "r.subject = ? and r.true_from >= ?";
                    case LIMIT ->
                        "r.body::jsonb -> 'exposures' @> jsonb_build_array(jsonb_build_object('substance', ?::text)) and r.true_from >= ?";
                    default -> null;
                };
        if (which == null) {
            return List.of();
        }
        return jdbc.query(
                """
                select r.id, r.subject, r.true_from, r.recorded_at, e.account_id
                from ledger_record r
                join ledger_entry e on e.site_id = r.site_id and e.id = r.entry_id
                where r.site_id = ? and r.kind = ? and r.recorded_at >= ? and r.recorded_at < ? and not r.withdrawn and\s""" + which + " order by r.recorded_at desc limit ?",
                (row, n) -> new Assessed(
                        new RecordId(row.getObject(1, UUID.class)),
                        new TaskId(row.getObject(2, UUID.class)),
                        row.getTimestamp(3).toInstant(),
                        row.getTimestamp(4).toInstant(),
                        new AccountId(row.getObject(5, UUID.class))),
                site.value(),
                Kind.TASK_BASIS.number(),
                told.atOffset(ZoneOffset.UTC),
                until.atOffset(ZoneOffset.UTC),
                old.kind() == Kind.LIMIT ? old.told().scope() : old.told().subject(),
                old.told().from().atOffset(ZoneOffset.UTC),
                MOST_ANSWERS);
    }

    /**
     * What shows that an answer rested on the record.
     *
     * @param records the record itself, and what an answer names instead of it: of a result or limit the assessment, of a
     *     calibration the readings that it vouches for
     * @param sets of what a set is (its data, its model's, its parts) an answer names nothing: each about one of these rested on it
     * @param from until {@code until}, excluded: when it said what such a set is, as known before it was replaced
     */
    private record Under(Set<RecordId> records, Set<UUID> sets, Instant from, Instant until) {

        boolean isOf(Worn worn, Interval wear) {
            return sets.contains(worn.set().value())
                    && wear.until().isAfter(from)
                    && wear.from().isBefore(until);
        }
    }

    private Under under(SiteId site, History.Version old, List<Assessed> assessments, Instant replacedAt) {
        Set<RecordId> records = new LinkedHashSet<>(List.of(old.told().id()));
        assessments.forEach(one -> records.add(one.id()));
        Set<UUID> sets =
                switch (old.kind()) {
                    case SET, PART_CHANGE -> Set.of(old.told().subject());
                    case MODEL -> setsOf(site, old.told().subject(), replacedAt);
                    default -> Set.of();
                };
        if (old.kind() == Kind.EXPOSURE_RESULT) {
            records.addAll(jdbc.query(
                    """
                    select r.id from ledger_record r
                    where r.site_id = ? and r.subject = ? and r.kind = ? and r.scope = ? and (r.recorded_at < ?) is true
                      and not r.withdrawn""",
                    (row, n) -> new RecordId(row.getObject(1, UUID.class)),
                    site.value(),
                    old.told().subject(),
                    Kind.EXPOSURE_RESULT.number(),
                    old.told().scope(),
                    replacedAt.atOffset(ZoneOffset.UTC)));
        } else if (old.kind() == Kind.CALIBRATION) {
            records.addAll(measured(site, old, replacedAt));
        }
        return new Under(records, sets, old.told().from(), sets.isEmpty() ? NEVER : followedAt(site, old, replacedAt));
    }

    /** When the next record of its kind about the same took over, as known before it was replaced. */
    private Instant followedAt(SiteId site, History.Version old, Instant replacedAt) {
        Timestamp next = jdbc.queryForObject(
                """
                select min(f.true_from) from ledger_record f
                where f.site_id = ? and f.subject = ? and f.kind = ? and f.scope is not distinct from ? and f.true_from > ?
                  and f.recorded_at < ? and not f.withdrawn
                  and not exists (select from ledger_record c
                                  where c.site_id = f.site_id and c.corrects = f.id and c.recorded_at < ?)""",
                Timestamp.class,
                site.value(),
                old.told().subject(),
                old.kind().number(),
                old.told().scope(),
                old.told().from().atOffset(ZoneOffset.UTC),
                replacedAt.atOffset(ZoneOffset.UTC),
                replacedAt.atOffset(ZoneOffset.UTC));
        return next == null ? NEVER : next.toInstant();
    }

    /** Sets that were ever told to be of the model. */
    private Set<UUID> setsOf(SiteId site, UUID model, Instant replacedAt) {
        return new LinkedHashSet<>(jdbc.query(
                """
                select distinct r.subject from ledger_record r
                where r.site_id = ? and r.kind = ? and r.body ->> 'model' = ?::text and r.recorded_at < ?""",
                (row, n) -> row.getObject(1, UUID.class),
                site.value(),
                Kind.SET.number(),
                model.toString(),
                replacedAt.atOffset(ZoneOffset.UTC)));
    }

    /**
     * What the instrument measured after the calibration, and before it, since it says how the instrument was found: as far as
     * no other calibration lies between that was known when both were told.
     */
    private List<RecordId> measured(SiteId site, History.Version old, Instant replacedAt) {
        return named.query(
                """
                select r.id from ledger_record r
                where r.site_id = :site and r.kind = any(:readings) and r.true_from >= :earliest and r.recorded_at < :replaced
                  and coalesce(r.body ->> 'instrument', r.body ->> 'indicator') = :instrument::text
                  and not exists (
                      select from ledger_record f
                      where f.site_id = r.site_id and f.subject = :instrument and f.kind = :calibration and not f.withdrawn
                        and (f.true_from > :from and f.true_from <= r.true_from
                             or f.true_from < :from and f.true_from > r.true_from)
                        and f.recorded_at <= greatest(r.recorded_at, :told)
                        and not exists (select from ledger_record c
                                        where c.site_id = f.site_id and c.corrects = f.id
                                          and c.recorded_at <= greatest(r.recorded_at, :told)))""",
                Map.of(
                        "site", site.value(),
                        "readings",
                                new Integer[] {
                                    Kind.FLOW_CHECK.number(), Kind.EXAMINATION.number(), Kind.PRE_USE_CHECK.number()
                                },
                        "earliest", old.told().from().minus(BEFORE_CALIBRATION).atOffset(ZoneOffset.UTC),
                        "replaced", replacedAt.atOffset(ZoneOffset.UTC),
                        "instrument", old.told().subject(),
                        "calibration", Kind.CALIBRATION.number(),
                        "from", old.told().from().atOffset(ZoneOffset.UTC),
                        "told", old.told().recordedAt().atOffset(ZoneOffset.UTC)),
                (row, n) -> new RecordId(row.getObject(1, UUID.class)));
    }

    private @Nullable Touched touched(SiteId site, Under under, Worn worn, Instant replacedAt, Instant now) {
        Interval wear = worn.judged(now);
        Answer before = judged(site, worn, wear, replacedAt.minusNanos(1_000));
        Answer after = judged(site, worn, wear, replacedAt);
        if (before == null || after == null) {
            return null;
        }
        boolean rested = under.isOf(worn, wear)
                || !Collections.disjoint(before.deciding(), under.records())
                || !Collections.disjoint(before.decisions(), under.records());
        return rested || before.verdict() != after.verdict()
                ? new Touched(worn, before.verdict(), after.verdict())
                : null;
    }

    private @Nullable Answer judged(SiteId site, Worn worn, Interval wear, Instant knownAt) {
        Question question = Question.ofSet(site, worn.worker(), worn.task(), worn.set(), wear, knownAt);
        return questions.wholeIfTold(question.atTheDoor());
    }

    private record Stored(
            Purpose purpose,
            Instant askedAt,
            AccountId by,
            WorkerId worker,
            TaskId task,
            @Nullable SetId set,
            Interval wear,
            Verdict then) {}

    /** Of a set that the record says something of, those that did not know of another record that had taken over by the wear. */
    private List<Given> answers(
            SiteId site, History.Version old, Under under, Instant told, Instant until, Instant now) {
        List<Stored> stored = named.query(
                """
                select a.purpose, a.asked_at, a.account_id, a.worker_id, a.task_id, a.set_id, a.wear_from, a.wear_until, a.verdict
                from stored_answer a
                where a.site_id = :site and a.asked_at >= :told and a.asked_at < :until
                  and (a.records && :records
                       or a.set_id = any(:sets) and a.wear_until > :from
                          and not exists (
                              select from ledger_record f
                              where f.site_id = a.site_id and f.subject = :subject and f.kind = :kind
                                and f.scope is not distinct from :scope and f.true_from > :from and f.true_from <= a.wear_from
                                and f.recorded_at <= a.asked_at and not f.withdrawn
                                and not exists (select from ledger_record c
                                                where c.site_id = f.site_id and c.corrects = f.id
                                                  and c.recorded_at <= a.asked_at)))
                order by a.asked_at desc limit :most""",
                new MapSqlParameterSource("site", site.value())
                        .addValue("told", told.atOffset(ZoneOffset.UTC))
                        .addValue("until", until.atOffset(ZoneOffset.UTC))
                        .addValue(
                                "records",
                                under.records().stream().map(RecordId::value).toArray(UUID[]::new))
                        .addValue("sets", under.sets().toArray(UUID[]::new))
                        .addValue("from", under.from().atOffset(ZoneOffset.UTC))
                        .addValue("subject", old.told().subject())
                        .addValue("kind", old.kind().number())
                        .addValue("scope", old.told().scope(), Types.VARCHAR)
                        .addValue("most", MOST_ANSWERS),
                (row, n) -> new Stored(
                        Purpose.valueOf(row.getString(1).toUpperCase(Locale.ROOT)),
                        row.getTimestamp(2).toInstant(),
                        new AccountId(row.getObject(3, UUID.class)),
                        new WorkerId(row.getObject(4, UUID.class)),
                        new TaskId(row.getObject(5, UUID.class)),
                        row.getObject(6, UUID.class) == null ? null : new SetId(row.getObject(6, UUID.class)),
                        new Interval(
                                row.getTimestamp(7).toInstant(),
                                row.getTimestamp(8).toInstant()),
                        Verdict.valueOf(row.getString(9))));
        return stored.stream().map(one -> given(site, one, now)).toList();
    }

    private Given given(SiteId site, Stored one, Instant now) {
        return new Given(
                one.purpose(),
                one.askedAt(),
                one.by(),
                one.worker(),
                one.task(),
                one.set(),
                one.then(),
                one.set() == null ? null : again(site, one, one.set(), now));
    }

    private @Nullable Verdict again(SiteId site, Stored one, SetId set, Instant now) {
        Question question = Question.ofSet(site, one.worker(), one.task(), set, one.wear(), now);
        Answer again = questions.wholeIfTold(question.atTheDoor());
        return again == null ? null : again.verdict();
    }

    private List<Issued> files(SiteId site, Set<RecordId> rested, Instant told, Instant until) {
        return jdbc.query(
                """
                select id, issued_at, account_id, about from issued_file
                where site_id = ? and issued_at >= ? and issued_at < ? and records && ?
                order by issued_at desc limit ?""",
                (row, n) -> new Issued(
                        row.getObject(1, UUID.class),
                        row.getTimestamp(2).toInstant(),
                        new AccountId(row.getObject(3, UUID.class)),
                        row.getString(4)),
                site.value(),
                told.atOffset(ZoneOffset.UTC),
                until.atOffset(ZoneOffset.UTC),
                rested.stream().map(RecordId::value).toArray(UUID[]::new),
                MOST_ANSWERS);
    }
}
