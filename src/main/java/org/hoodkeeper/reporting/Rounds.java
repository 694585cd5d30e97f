package org.hoodkeeper.reporting;

import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.Model;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.Task;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** Judges people at a moment, each at every task they are posted to: a fixed number of statements for some hundred of them. */
@Component
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
class Rounds {

    /** Their records and those of their sets lie in memory at a time; twenty thousand would not fit. */
    static final int AT_A_TIME = 500;

    private final People people;
    private final Kit kit;
    private final Programme programme;
    private final Dossiers dossiers;
    private final JdbcTemplate jdbc;

    Rounds(People people, Kit kit, Programme programme, Dossiers dossiers, JdbcTemplate jdbc) {
        this.people = people;
        this.kit = kit;
        this.programme = programme;
        this.dossiers = dossiers;
        this.jdbc = jdbc;
    }

    /** What a look at a moment judges. */
    static Interval wear(Instant at) {
        return new Interval(at, at.plus(Duration.ofMinutes(1)));
    }

    /** In the order given. */
    List<Standing> judge(Site site, Moment moment, List<Worker> workers) {
        return judge(site, moment, workers, AT_A_TIME);
    }

    /** @param atATime so many people at a time */
    List<Standing> judge(Site site, Moment moment, List<Worker> workers, int atATime) {
        if (workers.isEmpty()) {
            return List.of();
        }
        Map<TaskId, Task> tasks = new LinkedHashMap<>();
        programme.tasks(site.id()).forEach(task -> tasks.put(task.id(), task));
        Map<ModelId, String> models = new LinkedHashMap<>();
        kit.models(site.id()).stream()
                .sorted(Comparator.comparing(Model::code))
                .forEach(model -> models.put(model.id(), model.code()));
        Interval wear = wear(moment.at());
        if (workers.size() <= atATime) {
            Map<WorkerId, List<Round.InHand>> inHand = inHand(site, moment, workers);
            Dossiers.Loaded loaded = dossiers.load(
                    site,
                    new Dossiers.Wanted(ids(workers), tasks.keySet(), sets(workers, inHand), models),
                    wear,
                    moment.knownAt());
            return judged(new Round(site.id(), moment, wear, loaded, tasks, models), workers, inHand);
        }
        Map<WorkerId, List<Round.InHand>> inHand = inHand(site, moment);
        Dossiers.Loaded shared = dossiers.shared(site, tasks.keySet(), wear, moment.knownAt());
        List<Standing> standings = new ArrayList<>(workers.size());
        Supplier<List<Standing>> before = List::of;
        for (int from = 0; from < workers.size(); from += atATime) {
            List<Worker> some = workers.subList(from, Math.min(workers.size(), from + atATime));
            Supplier<Dossiers.Loaded> part = dossiers.part(shared, ids(some), sets(some, inHand));
            Supplier<List<Standing>> judging =
                    () -> judged(new Round(site.id(), moment, wear, part.get(), tasks, models), some, inHand);
            standings.addAll(before.get());
            before = from + atATime < workers.size() ? meanwhile(judging) : judging;
        }
        standings.addAll(before.get());
        return standings;
    }

    private static List<Standing> judged(Round round, List<Worker> workers, Map<WorkerId, List<Round.InHand>> inHand) {
        return workers.stream()
                .map(worker -> round.standing(worker, inHand.getOrDefault(worker.id(), List.of())))
                .toList();
    }

    private static List<WorkerId> ids(List<Worker> workers) {
        return workers.stream().map(Worker::id).toList();
    }

    private static Set<SetId> sets(List<Worker> workers, Map<WorkerId, List<Round.InHand>> inHand) {
        Set<SetId> sets = new LinkedHashSet<>();
        workers.forEach(worker -> inHand.getOrDefault(worker.id(), List.of()).forEach(held -> sets.add(held.id())));
        return sets;
    }

    /** Judging needs no database: while one part of the people is judged, the records of the next one are read. */
    private static Supplier<List<Standing>> meanwhile(Supplier<List<Standing>> judging) {
        CompletableFuture<List<Standing>> judged = CompletableFuture.supplyAsync(judging);
        return () -> {
            try {
                return judged.join();
            } catch (CompletionException failed) {
                throw failed.getCause() instanceof RuntimeException cause ? cause : failed;
            }
        };
    }

    /** Whoever was ever posted to a task, by number: nobody else can be posted to it at any moment. */
    List<Worker> everPosted(Site site, TaskId task) {
        Set<WorkerId> posted = new HashSet<>(jdbc.query(
                "select distinct subject from ledger_record where site_id = ? and item = ? and kind = ?",
                (row, n) -> new WorkerId(row.getObject(1, UUID.class)),
                site.id().value(),
                task.value(),
                Kind.POSTING.number()));
        return people.all(site.id()).stream()
                .filter(worker -> posted.contains(worker.id()))
                .sorted(Comparator.comparing(Worker::number))
                .toList();
    }

    /** Of each set that was ever issued to one of them the latest claim, as known: who has it. */
    Map<WorkerId, List<Round.InHand>> inHand(Site site, Moment moment, List<Worker> workers) {
        Map<WorkerId, List<Round.InHand>> inHand = inHand(
                """
                select distinct i.subject as id from a cross join lateral unnest(a.workers) w(id)
                cross join lateral (select r.subject from ledger_record r
                                    where r.site_id = a.site and r.item = w.id and r.kind = %d) i""".formatted(Kind.CUSTODY.number()),
                site,
                moment,
                ids(workers).stream().map(WorkerId::value).toArray(UUID[]::new));
        inHand.keySet().retainAll(ids(workers));
        return inHand;
    }

    /** The same of each set on the site, for everybody. */
    private Map<WorkerId, List<Round.InHand>> inHand(Site site, Moment moment) {
        return inHand("select s.id from a join kit_set s on s.site_id = a.site", site, moment, new UUID[0]);
    }

    private Map<WorkerId, List<Round.InHand>> inHand(String sets, Site site, Moment moment, UUID[] workers) {
        Map<WorkerId, List<Round.InHand>> inHand = new HashMap<>();
        jdbc.query(
                """
                with a as materialized (
                    select ?::uuid as site, ?::uuid[] as workers, ?::timestamptz as moment, ?::timestamptz as known),
                claimed as materialized (%1$s)
                select l.item, s.id, s.label from a cross join claimed c
                join kit_set s on s.site_id = a.site and s.id = c.id
                cross join lateral (
                    select r.item, r.body ->> 'claim' as claim from ledger_record r
                    where r.site_id = a.site and r.subject = c.id and r.kind = %2$d and r.true_from <= a.moment
                      and (r.recorded_at <= a.known) is true and not r.withdrawn
                      and (select x.id from ledger_record x where x.site_id = r.site_id and x.corrects = r.id
                           and x.recorded_at <= a.known) is null
                    order by r.true_from desc, r.recorded_at desc, r.id desc limit 1) l
                where l.claim = 'ISSUED' order by s.label""".formatted(sets, Kind.CUSTODY.number()),
                row -> {
                    inHand.computeIfAbsent(new WorkerId(row.getObject(1, UUID.class)), any -> new ArrayList<>())
                            .add(new Round.InHand(new SetId(row.getObject(2, UUID.class)), row.getString(3)));
                },
                site.id().value(),
                workers,
                Timestamp.from(moment.at()),
                Timestamp.from(moment.knownAt()));
        return inHand;
    }
}
