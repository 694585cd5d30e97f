package org.hoodkeeper.reporting;

import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.ModelFile;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.WorkerFile;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.Model;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.programme.Task;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * The site at a moment: each person at each task, with the best verdict over the sets in hand, or over the models that would
 * do where no set is issued. A fixed number of statements, however many people.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class SiteBoards {

    private final SiteRegister sites;
    private final People people;
    private final Kit kit;
    private final Programme programme;
    private final Dossiers dossiers;
    private final KnowledgeClock clock;
    private final JdbcTemplate jdbc;

    SiteBoards(
            SiteRegister sites,
            People people,
            Kit kit,
            Programme programme,
            Dossiers dossiers,
            KnowledgeClock clock,
            JdbcTemplate jdbc) {
        this.sites = sites;
        this.people = people;
        this.kit = kit;
        this.programme = programme;
        this.dossiers = dossiers;
        this.clock = clock;
        this.jdbc = jdbc;
    }

    /** When "now" is, for {@link Moment#of}. */
    public Instant now() {
        return clock.now();
    }

    /** The code of a task, for pages that have its id. */
    public String taskCode(SiteId site, TaskId task) {
        return programme.task(site, task).code();
    }

    /** Everyone the reader may see. */
    public Board of(Viewer viewer, Moment moment) {
        return of(viewer, moment, seen(viewer, people.all(viewer.site())));
    }

    /** One person at every task that this person is posted to. */
    public Board of(Viewer viewer, Moment moment, Worker worker) {
        return of(viewer, moment, seen(viewer, List.of(worker)));
    }

    private static List<Worker> seen(Viewer viewer, List<Worker> all) {
        boolean everyone = viewer.isAny(
                Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST);
        return everyone
                ? all
                : all.stream()
                        .filter(worker -> viewer.isSelf(worker.id()) || isStaff(viewer, worker))
                        .toList();
    }

    private static boolean isStaff(Viewer viewer, Worker worker) {
        return viewer.is(Role.EMPLOYER)
                && viewer.employer() != null
                && viewer.employer().equals(worker.employer());
    }

    private Board of(Viewer viewer, Moment moment, List<Worker> workers) {
        Site site = sites.get(viewer.site());
        Map<TaskId, Task> tasks = new LinkedHashMap<>();
        programme.tasks(site.id()).forEach(task -> tasks.put(task.id(), task));
        Map<ModelId, String> models = new LinkedHashMap<>();
        kit.models(site.id()).stream()
                .sorted(Comparator.comparing(Model::code))
                .forEach(model -> models.put(model.id(), model.code()));
        Map<WorkerId, List<InHand>> inHand = inHand(site, moment);
        Set<SetId> sets = new LinkedHashSet<>();
        workers.forEach(worker -> inHand.getOrDefault(worker.id(), List.of()).forEach(set -> sets.add(set.id())));
        Interval wear = new Interval(moment.at(), moment.at().plus(Duration.ofMinutes(1)));
        Dossiers.Loaded loaded = dossiers.load(
                site,
                new Dossiers.Wanted(workers.stream().map(Worker::id).toList(), tasks.keySet(), sets, models),
                wear,
                moment.knownAt());
        Round round = new Round(viewer, moment, wear, loaded, models);
        List<BoardRow> rows = new ArrayList<>();
        for (Worker worker : workers) {
            List<InHand> held = inHand.getOrDefault(worker.id(), List.of());
            List<Task> posted = posted(loaded.worker(worker.id()), tasks, moment.at());
            if (posted.isEmpty()) {
                rows.add(new BoardRow(worker, null, null, null, null, null));
            }
            posted.forEach(task -> rows.add(round.row(worker, task, held)));
        }
        return new Board(moment, rows);
    }

    private record InHand(SetId id, String label) {}

    /** The latest claim on each set, as known: who has it. */
    private Map<WorkerId, List<InHand>> inHand(Site site, Moment moment) {
        Map<WorkerId, List<InHand>> inHand = new HashMap<>();
        jdbc.query(
                """
                select l.item, s.id, s.label from kit_set s
                cross join lateral (
                    select r.item, r.body ->> 'claim' as claim from ledger_record r
                    where r.site_id = s.site_id and r.subject = s.id and r.kind = ? and r.true_from <= ?
                      and r.recorded_at <= ? and not r.withdrawn
                      and not exists (select 1 from ledger_record c
                                      where c.site_id = r.site_id and c.corrects = r.id and c.recorded_at <= ?)
                    order by r.true_from desc, r.recorded_at desc, r.id desc limit 1) l
                where s.site_id = ? and l.claim = 'ISSUED' order by s.label""",
                row -> {
                    inHand.computeIfAbsent(new WorkerId(row.getObject(1, UUID.class)), any -> new ArrayList<>())
                            .add(new InHand(new SetId(row.getObject(2, UUID.class)), row.getString(3)));
                },
                Kind.CUSTODY.number(),
                Timestamp.from(moment.at()),
                Timestamp.from(moment.knownAt()),
                Timestamp.from(moment.knownAt()),
                site.id().value());
        return inHand;
    }

    private static List<Task> posted(WorkerFile worker, Map<TaskId, Task> tasks, Instant at) {
        Set<UUID> ended = new LinkedHashSet<>();
        Map<String, Task> posted = new TreeMap<>();
        for (Told<Posting> told : worker.postings()) {
            if (told.item() == null || told.from().isAfter(at)) {
                continue;
            }
            if (told.fact().change() == Posting.Change.ENDED) {
                ended.add(told.item());
            } else if (told.isTrueAt(at) && !ended.contains(told.item())) {
                Task task = tasks.get(new TaskId(told.item()));
                if (task != null) {
                    posted.put(task.code(), task);
                }
            }
        }
        return List.copyOf(posted.values());
    }

    /** One pass over the people, with everything loaded. */
    private record Round(
            Viewer viewer, Moment moment, Interval wear, Dossiers.Loaded loaded, Map<ModelId, String> models) {

        BoardRow row(Worker worker, Task task, List<InHand> held) {
            BoardRow best = null;
            for (InHand set : held) {
                SetData data = loaded.data(set.id());
                if (data != null && models.containsKey(data.model())) {
                    Question question =
                            Question.ofSet(viewer.site(), worker.id(), task.id(), set.id(), wear, moment.knownAt());
                    best = better(best, glance(worker, task, question, set, data.model()));
                }
            }
            if (best != null) {
                return best;
            }
            for (ModelId model : models.keySet()) {
                String size = size(worker, model);
                if (size != null) {
                    Question question = Question.ofModel(
                            viewer.site(), worker.id(), task.id(), model, size, wear, moment.knownAt());
                    best = better(best, glance(worker, task, question, null, model));
                }
            }
            return best == null ? new BoardRow(worker, task, null, null, null, null) : best;
        }

        private BoardRow glance(Worker worker, Task task, Question question, @Nullable InHand set, ModelId model) {
            String code = models.getOrDefault(model, "");
            Question asked = moment.isAtTheDoor() ? question.atTheDoor() : question;
            Assessment.Glance glance = Assessment.glanceFor(
                    viewer,
                    isStaff(viewer, worker) ? Assessment.Staff.OWN : Assessment.Staff.OTHERS,
                    asked,
                    loaded.dossier(
                            worker.id(),
                            task.id(),
                            set == null ? null : set.id(),
                            set == null ? null : set.label(),
                            model,
                            code));
            return new BoardRow(worker, task, set == null ? null : set.label(), code, question.size(), glance);
        }

        private static BoardRow better(@Nullable BoardRow one, BoardRow other) {
            if (one == null || one.glance() == null || other.glance() == null) {
                return other;
            }
            int order = other.glance().verdict().compareTo(one.glance().verdict());
            boolean fewer = other.glance().open() < one.glance().open();
            return order < 0 || (order == 0 && fewer) ? other : one;
        }

        /** The size this person would wear: one with a fit test for a mask, else the first that exists. */
        private @Nullable String size(Worker worker, ModelId model) {
            ModelFile file = loaded.model(model, models.getOrDefault(model, ""));
            ModelData data = newest(file.data(), moment.at());
            if (data == null || data.sizes().isEmpty()) {
                return null;
            }
            if (data.type().isTightFitting()) {
                String prefix = file.code() + "/";
                for (Told<? extends Fact> test : loaded.worker(worker.id()).fitTests()) {
                    String scope = test.scope() == null ? "" : test.scope();
                    String[] parts = scope.split("/", -1);
                    if (parts.length == 3
                            && scope.startsWith(prefix)
                            && data.sizes().contains(parts[1])) {
                        return parts[1];
                    }
                }
            }
            return new TreeSet<>(data.sizes()).first();
        }

        private static @Nullable ModelData newest(List<Told<ModelData>> data, Instant at) {
            for (Told<ModelData> told : data) {
                if (!told.from().isAfter(at)) {
                    return told.fact();
                }
            }
            return null;
        }
    }
}
