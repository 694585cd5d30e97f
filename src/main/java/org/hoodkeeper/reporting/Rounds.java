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
    private static final int AT_A_TIME = 500;

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
        List<Standing> standings = new ArrayList<>(workers.size());
        if (workers.isEmpty()) {
            return standings;
        }
        Map<TaskId, Task> tasks = new LinkedHashMap<>();
        programme.tasks(site.id()).forEach(task -> tasks.put(task.id(), task));
        Map<ModelId, String> models = new LinkedHashMap<>();
        kit.models(site.id()).stream()
                .sorted(Comparator.comparing(Model::code))
                .forEach(model -> models.put(model.id(), model.code()));
        Supplier<List<Standing>> before = List::of;
        for (int from = 0; from < workers.size(); from += AT_A_TIME) {
            List<Worker> some = workers.subList(from, Math.min(workers.size(), from + AT_A_TIME));
            Map<WorkerId, List<Round.InHand>> inHand = inHand(site, moment, some);
            Round round = round(site, moment, some, inHand, tasks, models);
            Supplier<List<Standing>> judging = () -> some.stream()
                    .map(worker -> round.standing(worker, inHand.getOrDefault(worker.id(), List.of())))
                    .toList();
            standings.addAll(before.get());
            before = from + AT_A_TIME < workers.size() ? meanwhile(judging) : judging;
        }
        standings.addAll(before.get());
        return standings;
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

    private Round round(
            Site site,
            Moment moment,
            List<Worker> workers,
            Map<WorkerId, List<Round.InHand>> inHand,
            Map<TaskId, Task> tasks,
            Map<ModelId, String> models) {
        Set<SetId> sets = new LinkedHashSet<>();
        inHand.values().forEach(held -> held.forEach(set -> sets.add(set.id())));
        Interval wear = wear(moment.at());
        Dossiers.Loaded loaded = dossiers.load(
                site,
                new Dossiers.Wanted(workers.stream().map(Worker::id).toList(), tasks.keySet(), sets, models),
                wear,
                moment.knownAt());
        return new Round(site.id(), moment, wear, loaded, tasks, models);
    }

    /** Of each set that was ever issued to one of them the latest claim, as known: who has it. */
    Map<WorkerId, List<Round.InHand>> inHand(Site site, Moment moment, List<Worker> workers) {
        Map<WorkerId, List<Round.InHand>> inHand = new HashMap<>();
        jdbc.query(
                """
                with a as materialized (
                    select ?::uuid as site, ?::uuid[] as workers, ?::timestamptz as moment, ?::timestamptz as known),
                claimed as materialized (
                    select distinct i.subject as id from a cross join lateral unnest(a.workers) w(id)
                    cross join lateral (select r.subject from ledger_record r
                                        where r.site_id = a.site and r.item = w.id and r.kind = %1$d) i)
                select l.item, s.id, s.label from a cross join claimed c
                join kit_set s on s.site_id = a.site and s.id = c.id
                cross join lateral (
                    select r.item, r.body ->> 'claim' as claim from ledger_record r
                    where r.site_id = a.site and r.subject = c.id and r.kind = %1$d and r.true_from <= a.moment
                      and (r.recorded_at <= a.known) is true and not r.withdrawn
                      and (select x.id from ledger_record x where x.site_id = r.site_id and x.corrects = r.id
                           and x.recorded_at <= a.known) is null
                    order by r.true_from desc, r.recorded_at desc, r.id desc limit 1) l
                where l.claim = 'ISSUED' order by s.label""".formatted(Kind.CUSTODY.number()),
                row -> {
                    inHand.computeIfAbsent(new WorkerId(row.getObject(1, UUID.class)), any -> new ArrayList<>())
                            .add(new Round.InHand(new SetId(row.getObject(2, UUID.class)), row.getString(3)));
                },
                site.id().value(),
                workers.stream().map(worker -> worker.id().value()).toArray(UUID[]::new),
                Timestamp.from(moment.at()),
                Timestamp.from(moment.knownAt()));
        inHand.keySet().retainAll(workers.stream().map(Worker::id).toList());
        return inHand;
    }
}
