package org.hoodkeeper.reporting;

import java.sql.PreparedStatement;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.assessment.AirPart;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.ArgumentPreparedStatementSetter;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.RowCallbackHandler;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** Whom a new result, limit or assessment turned: compares what is known now with what was known before it was told. */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class BasisMoves {

    private static final int MOST_WEARS = 500;

    /** How many of the newest tellings are looked at for the one that changed something. */
    private static final int MOST_STEPS_BACK = 12;

    /** Wears are read in such portions: a task can have more of them than fit in memory. */
    private static final int PORTION = 1_000;

    private static final Set<RequirementKind> PROTECTION = EnumSet.of(
            RequirementKind.ADEQUACY, RequirementKind.FILTER, RequirementKind.INTERFACE, RequirementKind.ATMOSPHERE);

    private final TaskSheets sheets;
    private final SiteBoards boards;
    private final Questions questions;
    private final Programme programme;
    private final People people;
    private final KnowledgeClock clock;
    private final JdbcTemplate jdbc;

    BasisMoves(
            TaskSheets sheets,
            SiteBoards boards,
            Questions questions,
            Programme programme,
            People people,
            KnowledgeClock clock,
            JdbcTemplate jdbc) {
        this.sheets = sheets;
        this.boards = boards;
        this.questions = questions;
        this.programme = programme;
        this.people = people;
        this.clock = clock;
        this.jdbc = jdbc;
    }

    /**
     * @param knownBefore what was known by then is compared with what is known now; none for just before that was told which last
     *     changed the sheet: assessment, result, limit, the deciding statistic or a later version of the rule set. Where none of
     *     the newest did, just before the newest of them
     * @throws NotFound {@code task.unknown}
     */
    public BasisMove of(Viewer viewer, String code, @Nullable Instant knownBefore) {
        Instant now = clock.now();
        TaskSheet sheet = sheets.of(viewer.site(), code, new Moment(now, now, Moment.View.NOW));
        Instant cut = knownBefore == null ? lastMoved(viewer.site(), sheet, now) : knownBefore;
        return compared(viewer, sheet, cut.isAfter(now) ? now : cut);
    }

    /**
     * What is about to be told of a task: asked inside the transaction that tells it, before it is kept or taken back.
     *
     * @param told just before it was told
     * @param from when it begins to count; judged at that instant where it lies ahead
     */
    public BasisMove preview(Viewer viewer, String code, Instant told, Instant from) {
        return compared(viewer, sheets.of(viewer.site(), code, ahead(from)), told);
    }

    /** The same of a limit: one for each task in whose air the substance is. */
    public List<BasisMove> previewLimit(Viewer viewer, String substance, Instant told, Instant from) {
        return sheets.all(viewer.site(), ahead(from)).stream()
                .filter(sheet ->
                        sheet.air().stream().anyMatch(part -> part.substance().equals(substance)))
                .map(sheet -> compared(viewer, sheet, told))
                .toList();
    }

    private Moment ahead(Instant from) {
        Instant now = clock.now();
        return from.isAfter(now)
                ? new Moment(from, now, Moment.View.AS_KNOWN_NOW)
                : new Moment(now, now, Moment.View.NOW);
    }

    private BasisMove compared(Viewer viewer, TaskSheet sheet, Instant knownBefore) {
        Moment known = sheet.moment();
        Instant at = known.at();
        String code = sheet.task();
        TaskId task = programme.task(viewer.site(), code).id();
        Moment then = new Moment(at, knownBefore, known.view());
        TaskSheet before = sheets.of(viewer.site(), code, then);
        Map<WorkerId, BoardRow> rowsBefore = new HashMap<>();
        boards.at(viewer, then, code)
                .rows()
                .forEach(row -> rowsBefore.put(row.worker().id(), row));
        List<BasisMove.Turned> turned = new ArrayList<>();
        List<BoardRow> stopped = new ArrayList<>();
        List<BoardRow> freed = new ArrayList<>();
        List<BoardRow> still = new ArrayList<>();
        int otherwise = 0;
        for (BoardRow row : boards.at(viewer, known, code).rows()) {
            BoardRow earlier = rowsBefore.get(row.worker().id());
            if (isCleared(row)) {
                (earlier != null && !isCleared(earlier) && isForProtection(earlier) ? freed : still).add(row);
            } else if (isCleared(earlier)) {
                if (isForProtection(row) || isShort(row, sheet)) {
                    turned.add(new BasisMove.Turned(row, ways(viewer, row, task, sheet, known)));
                } else {
                    stopped.add(row);
                }
            } else {
                otherwise++;
            }
        }
        Instant since = since(sheet, knownBefore);
        Wears wears = since == null || !since.isBefore(known.knownAt())
                ? new Wears(List.of(), 0)
                : wears(viewer.site(), task, before, sheet, since);
        return new BasisMove(
                sheet,
                before,
                since,
                turned,
                stopped,
                freed,
                still,
                otherwise,
                at.isAfter(known.knownAt()) ? weakened(viewer, before, sheet, turned) : List.of(),
                wears.newest(),
                wears.inAll());
    }

    /** Whoever is cleared today with a model that would have done then, and no longer will. */
    private List<BoardRow> weakened(Viewer viewer, TaskSheet before, TaskSheet sheet, List<BasisMove.Turned> turned) {
        Set<WorkerId> named =
                turned.stream().map(one -> one.row().worker().id()).collect(Collectors.toSet());
        Instant now = sheet.moment().knownAt();
        return boards.at(viewer, new Moment(now, now, Moment.View.NOW), sheet.task()).rows().stream()
                .filter(row -> isCleared(row)
                        && row.model() != null
                        && before.enough().contains(row.model())
                        && !sheet.enough().contains(row.model())
                        && !named.contains(row.worker().id()))
                .toList();
    }

    private static boolean isCleared(@Nullable BoardRow row) {
        return row != null && row.glance() != null && row.glance().verdict() != Verdict.NOT_CLEARED;
    }

    private static boolean isForProtection(BoardRow row) {
        return row.glance() != null
                && row.glance().first() != null
                && PROTECTION.contains(row.glance().first().kind());
    }

    /** Whatever else stands first: the model does not protect enough here. */
    private static boolean isShort(BoardRow row, TaskSheet sheet) {
        return sheet.models().stream()
                .anyMatch(
                        line -> line.code().equals(row.model()) && !line.stand().isEnough());
    }

    /** What the sheet rests on: assessment, limits, and the results that moved it. */
    private static List<Told<?>> rests(TaskSheet sheet) {
        List<Told<?>> all = new ArrayList<>();
        if (sheet.basis() != null) {
            all.add(sheet.basis());
        }
        for (AirPart part : sheet.air()) {
            if (part.movedBy() != null) {
                all.add(part.movedBy());
            }
            if (part.limit() != null) {
                all.add(part.limit());
            }
        }
        return all;
    }

    /**
     * When anything that a sheet rests on was told, newest first: assessments, results and limits, the site's decision on the
     * statistic, and a version of the rule set other than its first.
     */
    private static final String TOLD = """
            select distinct at from (
                select r.recorded_at as at from ledger_record r where r.site_id = ? and r.subject = ? and r.kind in (?, ?)
                union all
                select r.recorded_at from ledger_record r where r.site_id = ? and r.kind = ? and r.scope = any(?)
                union all
                select r.recorded_at from ledger_record r where r.site_id = ? and r.kind = ? and r.scope = 'exposure.statistic'
                union all
                select s.loaded_at from rule_set s
                where s.code || ' ' || s.version = ?
                  and exists (select 1 from rule_set e where e.code = s.code and e.loaded_at < s.loaded_at)) told
            where at <= ? order by at desc limit ?""";

    /** Just before what last changed the sheet was told: an assessment that only confirms what results had raised is no move. */
    private Instant lastMoved(SiteId site, TaskSheet sheet, Instant now) {
        Instant newest = null;
        for (Instant told : told(site, sheet, now)) {
            Instant cut = told.minusNanos(1_000);
            newest = newest == null ? cut : newest;
            TaskSheet before = sheets.of(site, sheet.task(), new Moment(now, cut, Moment.View.NOW));
            if (before.basis() == null) {
                break;
            }
            if (isMoved(before, sheet)) {
                return cut;
            }
        }
        return newest == null ? now : newest;
    }

    private List<Instant> told(SiteId site, TaskSheet sheet, Instant now) {
        return jdbc.query(
                TOLD,
                (row, n) -> row.getTimestamp(1).toInstant(),
                site.value(),
                programme.task(site, sheet.task()).id().value(),
                Kind.TASK_BASIS.number(),
                Kind.EXPOSURE_RESULT.number(),
                site.value(),
                Kind.LIMIT.number(),
                sheet.air().stream().map(AirPart::substance).distinct().toArray(String[]::new),
                site.value(),
                Kind.SITE_DECISION.number(),
                sheet.ruleSet(),
                Timestamp.from(now),
                MOST_STEPS_BACK);
    }

    private static boolean isMoved(TaskSheet before, TaskSheet sheet) {
        boolean sameRatio = before.ratio() == null || sheet.ratio() == null
                ? before.ratio() == sheet.ratio()
                : before.ratio().compareTo(sheet.ratio()) == 0;
        return !sameRatio
                || !before.enough().equals(sheet.enough())
                || before.statistic() != sheet.statistic()
                || !before.ruleSet().equals(sheet.ruleSet())
                || before.isOver() != sheet.isOver()
                || workRate(before) != workRate(sheet);
    }

    private static MedicalOutcome.@Nullable WorkRate workRate(TaskSheet sheet) {
        return sheet.basis() == null ? null : sheet.basis().fact().workRate();
    }

    /**
     * From when what was told since has counted, the earliest of it; where none of it was told since then, the newest of results,
     * assessment and limits.
     */
    private static @Nullable Instant since(TaskSheet sheet, Instant knownBefore) {
        if (sheet.basis() == null) {
            return null;
        }
        List<Told<?>> rests = rests(sheet);
        return rests.stream()
                .filter(told -> told.recordedAt().isAfter(knownBefore))
                .map(Told::from)
                .min(Instant::compareTo)
                .orElseGet(() ->
                        rests.stream().map(Told::from).max(Instant::compareTo).orElseThrow());
    }

    /** Each model that is enough, and what this person still needs for it. */
    private List<BasisMove.Way> ways(Viewer viewer, BoardRow row, TaskId task, TaskSheet sheet, Moment known) {
        Interval soon = new Interval(known.at(), known.at().plus(Duration.ofMinutes(1)));
        List<BasisMove.Way> ways = new ArrayList<>();
        for (TaskSheet.ModelLine line : sheet.models()) {
            if (!line.stand().isEnough()) {
                continue;
            }
            line.sizes().stream()
                    .map(size -> Question.ofModel(
                            viewer.site(), row.worker().id(), task, line.id(), size, soon, known.knownAt()))
                    .map(question -> way(line.code(), questions.ask(viewer, question.atTheDoor())))
                    .min(Comparator.comparing(BasisMove.Way::step))
                    .ifPresent(ways::add);
        }
        return ways;
    }

    private static BasisMove.Way way(String model, Answer answer) {
        List<Reason> barring = answer.reasons().stream()
                .filter(reason -> reason.result().bars())
                .toList();
        Set<RequirementKind> open = barring.stream()
                .map(Reason::kind)
                .collect(Collectors.toCollection(() -> EnumSet.noneOf(RequirementKind.class)));
        boolean training = open.remove(RequirementKind.TRAINING);
        boolean fit = open.remove(RequirementKind.FIT_TEST);
        if (!open.isEmpty()) {
            return new BasisMove.Way(model, BasisMove.Step.OTHER, barring);
        }
        BasisMove.Step step = training && fit
                ? BasisMove.Step.NEEDS_BOTH
                : training
                        ? BasisMove.Step.NEEDS_TRAINING
                        : fit ? BasisMove.Step.NEEDS_FIT_TEST : BasisMove.Step.MAY_WEAR;
        return new BasisMove.Way(model, step, List.of());
    }

    private record Wears(List<BasisMove.Wearing> newest, int inAll) {}

    /** No wear is longer than a day, so that those of years before are not read, whatever became of them. */
    private static final String WORN = """
            select w.subject, s.label, m.code, w.true_from, e.at
            from ledger_record w
            cross join lateral (select coalesce(w.true_until, (
                       select min(x.true_from) from ledger_record x
                       where x.site_id = w.site_id and x.subject = w.subject and x.kind = w.kind and x.item = w.item
                         and x.body ->> 'step' = 'EXIT' and x.true_from >= w.true_from and not x.withdrawn
                         and not exists (select 1 from ledger_record c
                                         where c.site_id = x.site_id and c.corrects = x.id))) as at) e
            join kit_set s on s.site_id = w.site_id and s.id = w.item
            left join lateral (
                select d.body ->> 'model' as model from ledger_record d
                where d.site_id = w.site_id and d.subject = w.item and d.kind = ? and d.true_from <= w.true_from
                  and not d.withdrawn
                  and not exists (select 1 from ledger_record c where c.site_id = d.site_id and c.corrects = d.id)
                order by d.true_from desc, d.recorded_at desc limit 1) d on true
            left join kit_model m on m.site_id = w.site_id and m.id = d.model::uuid
            where w.site_id = ? and w.kind = ? and w.body ->> 'task' = ? and w.body ->> 'step' <> 'EXIT'
              and w.true_from > ? and (w.true_from >= ? or e.at is null or e.at > ?) and not w.withdrawn
              and not exists (select 1 from ledger_record c where c.site_id = w.site_id and c.corrects = w.id)
            order by w.true_from desc""";

    /** The earliest from which anything told since counts, whether or not it still decides today. */
    private static final String COUNTS_FROM = """
            select min(r.true_from) from ledger_record r
            where r.site_id = ? and r.recorded_at > ? and r.recorded_at <= ? and not r.withdrawn
              and (r.subject = ? and r.kind in (?, ?) or r.kind = ? and r.scope = any(?))""";

    /**
     * Each wear against the sheets that were in force while it lasted, as known now: the sheet of today says nothing of earlier ones.
     * Before the newest figure counts, only what was enough as known before.
     */
    private Wears wears(SiteId site, TaskId task, TaskSheet before, TaskSheet sheet, Instant since) {
        Instant now = sheet.moment().knownAt();
        Instant told = before.moment().knownAt();
        Instant first = countsFrom(site, task, sheet, told, now, since);
        Interval during = new Interval(first, now);
        NavigableMap<Instant, Set<String>> enough = sheets.enough(site, sheet.task(), during, now);
        NavigableMap<Instant, Set<String>> enoughBefore =
                first.isBefore(since) ? sheets.enough(site, sheet.task(), during, told) : new TreeMap<>();
        Map<WorkerId, Worker> everyone =
                people.all(site).stream().collect(Collectors.toMap(Worker::id, Function.identity()));
        List<BasisMove.Wearing> newest = new ArrayList<>();
        int[] inAll = {0};
        jdbc.query(
                connection -> {
                    PreparedStatement statement = connection.prepareStatement(WORN);
                    statement.setFetchSize(PORTION);
                    new ArgumentPreparedStatementSetter(new Object[] {
                                Kind.SET.number(),
                                site.value(),
                                Kind.WEAR.number(),
                                task.toString(),
                                Timestamp.from(first.minus(Worn.LONGEST)),
                                Timestamp.from(first),
                                Timestamp.from(first)
                            })
                            .setValues(statement);
                    return statement;
                },
                (RowCallbackHandler) row -> {
                    String model = row.getString(3) == null ? "" : row.getString(3);
                    Instant from = row.getTimestamp(4).toInstant();
                    Timestamp exit = row.getTimestamp(5);
                    Instant until = exit == null ? null : exit.toInstant();
                    Worker worker = everyone.get(new WorkerId(row.getObject(1, UUID.class)));
                    Interval wear =
                            new Interval(from, until == null || !until.isAfter(from) ? from.plus(Worn.LONGEST) : until);
                    if (worker != null && isTooWeak(model, wear, since, enough, enoughBefore)) {
                        inAll[0]++;
                        if (newest.size() < MOST_WEARS) {
                            newest.add(new BasisMove.Wearing(worker, row.getString(2), model, from, until));
                        }
                    }
                });
        return new Wears(newest, inAll[0]);
    }

    private Instant countsFrom(SiteId site, TaskId task, TaskSheet sheet, Instant told, Instant now, Instant since) {
        Timestamp earliest = jdbc.queryForObject(
                COUNTS_FROM,
                Timestamp.class,
                site.value(),
                Timestamp.from(told),
                Timestamp.from(now),
                task.value(),
                Kind.TASK_BASIS.number(),
                Kind.EXPOSURE_RESULT.number(),
                Kind.LIMIT.number(),
                sheet.air().stream().map(AirPart::substance).distinct().toArray(String[]::new));
        return earliest == null || earliest.toInstant().isAfter(since) ? since : earliest.toInstant();
    }

    private static boolean isTooWeak(
            String model,
            Interval wear,
            Instant since,
            NavigableMap<Instant, Set<String>> enough,
            NavigableMap<Instant, Set<String>> enoughBefore) {
        return Stream.of(
                        Stream.of(wear.from(), since, enough.firstKey()),
                        enough.keySet().stream(),
                        enoughBefore.keySet().stream())
                .flatMap(Function.identity())
                .filter(wear::contains)
                .anyMatch(at -> !isIn(enough, at, model) && (!at.isBefore(since) || isIn(enoughBefore, at, model)));
    }

    private static boolean isIn(NavigableMap<Instant, Set<String>> enough, Instant at, String model) {
        Map.Entry<Instant, Set<String>> stretch = enough.floorEntry(at);
        return stretch != null && stretch.getValue().contains(model);
    }
}
