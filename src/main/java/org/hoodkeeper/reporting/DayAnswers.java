package org.hoodkeeper.reporting;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.FlowMinimum;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.assessment.Wall;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.Model;
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
 * One person's day: the answer to the same plan at each task of theirs, with the set in hand that does best or the model that
 * would do. All of it rests on one reading of the records, so that the lines of a page agree with each other.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class DayAnswers {

    private final SiteRegister sites;
    private final Programme programme;
    private final Kit kit;
    private final Rounds rounds;
    private final Dossiers dossiers;
    private final Alternatives alternatives;
    private final JdbcTemplate jdbc;

    DayAnswers(
            SiteRegister sites,
            Programme programme,
            Kit kit,
            Rounds rounds,
            Dossiers dossiers,
            Alternatives alternatives,
            JdbcTemplate jdbc) {
        this.sites = sites;
        this.programme = programme;
        this.kit = kit;
        this.rounds = rounds;
        this.dossiers = dossiers;
        this.alternatives = alternatives;
        this.jdbc = jdbc;
    }

    /** Where the person is at the moment, and with what on. */
    public record Inside(TaskId task, SetId set) {}

    /**
     * One task.
     *
     * @param set label of the set that was judged; none where none is in hand
     * @param model code of the model judged; none where no model of the site would do
     * @param size judged where no set is in hand
     * @param answer none where nothing could be judged
     */
    public record Line(
            String task,
            @Nullable String set,
            @Nullable String model,
            @Nullable String size,
            @Nullable Answer answer) {}

    /** A day as it was read. */
    public static final class Day {

        private final Site site;
        private final Dossiers.Loaded loaded;
        private final Map<ModelId, String> codes;
        private final Map<TaskId, String> taskCodes;
        private final Interval plan;
        private final Map<SetId, String> inHand = new LinkedHashMap<>();
        private final List<Line> lines = new ArrayList<>();
        private @Nullable Line inside;

        private Day(
                Site site,
                Dossiers.Loaded loaded,
                Map<ModelId, String> codes,
                Map<TaskId, String> taskCodes,
                Interval plan) {
            this.site = site;
            this.loaded = loaded;
            this.codes = codes;
            this.taskCodes = taskCodes;
            this.plan = plan;
        }

        /** The tasks to which the person is posted, but for the one where they are; by code. */
        public List<Line> lines() {
            return List.copyOf(lines);
        }

        /** Where the person is; none outside. */
        public @Nullable Line inside() {
            return inside;
        }

        /** Labels of the sets in hand, by label. */
        public List<String> inHand() {
            return List.copyOf(inHand.values());
        }

        /** What a set in hand must give at the start of the plan, L/min; none for another set, or for a device without a flow. */
        public @Nullable BigDecimal minimumFlow(@Nullable String label) {
            ModelData model = model(label);
            FlowMinimum minimum =
                    model == null ? null : FlowMinimum.of(model, loaded.rules().at(plan.from()));
            return minimum == null ? null : minimum.litresPerMinute();
        }

        /** What the maker says now of the model of a set in hand; none for another set, or where nothing is said. */
        private @Nullable ModelData model(@Nullable String label) {
            for (Map.Entry<SetId, String> set : inHand.entrySet()) {
                SetData data = loaded.data(set.getKey());
                if (set.getValue().equals(label) && data != null) {
                    return loaded.model(data.model(), "").data().stream()
                            .filter(told -> !told.from().isAfter(plan.from()))
                            .map(Told::fact)
                            .findFirst()
                            .orElse(null);
                }
            }
            return null;
        }
    }

    /**
     * @param viewer the person
     * @param plan from now on
     * @param inside none for somebody outside
     * @throws NotFound {@code set.unknownThen} when the site was not told of the set with which the person went in
     */
    public Day of(Viewer viewer, Worker worker, Interval plan, @Nullable Inside inside) {
        if (!viewer.isSelf(worker.id())) {
            throw new NotFound("worker.unknown", worker.number());
        }
        Site site = sites.get(viewer.site());
        Moment moment = Moment.of(null, false, plan.from());
        Map<TaskId, Task> tasks = new LinkedHashMap<>();
        programme.tasks(site.id()).forEach(task -> tasks.put(task.id(), task));
        Map<ModelId, String> codes = new LinkedHashMap<>();
        for (Model model : kit.models(site.id())) {
            codes.put(model.id(), model.code());
        }
        List<Round.InHand> held = rounds.inHand(site, moment, List.of(worker)).getOrDefault(worker.id(), List.of());
        Set<SetId> sets = new LinkedHashSet<>();
        held.forEach(one -> sets.add(one.id()));
        Set<TaskId> wanted = everPosted(site, worker);
        if (inside != null) {
            sets.add(inside.set());
            wanted.add(inside.task());
        }
        Dossiers.Loaded loaded =
                dossiers.load(site, new Dossiers.Wanted(List.of(worker.id()), wanted, sets, codes), plan, plan.from());
        Map<TaskId, String> taskCodes = new LinkedHashMap<>();
        tasks.forEach((id, task) -> taskCodes.put(id, task.code()));
        Day day = new Day(site, loaded, codes, taskCodes, plan);
        held.forEach(one -> day.inHand.put(one.id(), one.label()));
        Interval atOnce = new Interval(plan.from(), plan.from().plusSeconds(60));
        Round round = new Round(site.id(), moment, atOnce, loaded, tasks, codes);
        for (BoardRow row : round.standing(worker, held).rows(Wall.View.WHOLE)) {
            Task task = row.task();
            if (task != null && (inside == null || !task.id().equals(inside.task()))) {
                day.lines.add(line(day, worker, task, row));
            }
        }
        if (inside != null) {
            day.inside = inside(day, worker, tasks.get(inside.task()), inside);
        }
        return day;
    }

    /** The answer with the quickest proper ways to work today, where it says no. */
    public Answer withAlternatives(Viewer viewer, Day day, Line line) {
        Answer answer = line.answer();
        if (answer == null) {
            throw new IllegalArgumentException("nothing was judged at " + line.task());
        }
        return answer.verdict() != Verdict.NOT_CLEARED
                ? answer
                : answer.with(alternatives.find(
                        viewer,
                        Assessment.Staff.OTHERS,
                        day.site,
                        answer,
                        answer.question().atTheDoor(),
                        line.set(),
                        day.codes,
                        day.taskCodes,
                        day.loaded));
    }

    /** Nobody can be posted to another task at any moment. */
    private Set<TaskId> everPosted(Site site, Worker worker) {
        return new LinkedHashSet<>(jdbc.query(
                "select distinct item from ledger_record where site_id = ? and subject = ? and kind = ? and item is not null",
                (row, n) -> new TaskId(row.getObject(1, UUID.class)),
                site.id().value(),
                worker.id().value(),
                Kind.POSTING.number()));
    }

    private static Line line(Day day, Worker worker, Task task, BoardRow row) {
        String model = row.model();
        if (model == null) {
            return new Line(task.code(), null, null, null, null);
        }
        String size = row.size() == null ? "" : row.size();
        Question question = null;
        for (Map.Entry<SetId, String> set : day.inHand.entrySet()) {
            if (set.getValue().equals(row.set())) {
                question =
                        Question.ofSet(day.site.id(), worker.id(), task.id(), set.getKey(), day.plan, day.plan.from());
            }
        }
        if (question == null) {
            ModelId id = Questions.model(day.codes, model);
            question = Question.ofModel(day.site.id(), worker.id(), task.id(), id, size, day.plan, day.plan.from());
        }
        Answer answer =
                Assessment.judge(question.atTheDoor(), Questions.dossier(question, row.set(), day.codes, day.loaded));
        return new Line(task.code(), row.set(), model, size, answer);
    }

    private Line inside(Day day, Worker worker, @Nullable Task task, Inside inside) {
        String code =
                task == null ? programme.task(day.site.id(), inside.task()).code() : task.code();
        String label = kit.set(day.site.id(), inside.set()).label();
        Question question =
                Question.ofSet(day.site.id(), worker.id(), inside.task(), inside.set(), day.plan, day.plan.from());
        Answer answer = Assessment.judge(question, Questions.dossier(question, label, day.codes, day.loaded));
        return new Line(code, label, null, null, answer);
    }
}
