package org.hoodkeeper.reporting;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashSet;
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
import org.hoodkeeper.assessment.Wall;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Task;
import org.jspecify.annotations.Nullable;

/** One pass over some people, with everything loaded: the best verdict over the sets in hand, or over the models that would do. */
record Round(
        SiteId site,
        Moment moment,
        Interval wear,
        Dossiers.Loaded loaded,
        Map<TaskId, Task> tasks,
        Map<ModelId, String> models) {

    private static final Set<Wall.View> VIEWS = EnumSet.allOf(Wall.View.class);

    /** A set that somebody has, as known. */
    record InHand(SetId id, String label) {}

    Standing standing(Worker worker, List<InHand> held) {
        List<Told<Posting>> postings = loaded.worker(worker.id()).postings();
        Watch watch = new Watch(moment.at());
        for (Told<Posting> told : postings) {
            watch.at(told.from());
            watch.at(told.until());
        }
        Set<UUID> rests = new HashSet<>();
        List<Map<Wall.View, BoardRow>> lines = new ArrayList<>();
        for (Task task : posted(postings)) {
            rests.add(task.id().value());
            lines.add(line(worker, task, held, watch, rests));
        }
        if (lines.isEmpty()) {
            lines.add(same(new BoardRow(worker, null, null, null, null, null)));
        }
        held.forEach(set -> rests.add(set.id().value()));
        return new Standing(worker, lines, watch.next, rests);
    }

    /** The next instant at which something may change. */
    private static final class Watch {

        private final Instant now;
        private Instant next = Instant.MAX;

        private Watch(Instant now) {
            this.now = now;
        }

        void at(@Nullable Instant instant) {
            if (instant != null && instant.isAfter(now) && instant.isBefore(next)) {
                next = instant;
            }
        }
    }

    private List<Task> posted(List<Told<Posting>> postings) {
        Set<UUID> ended = new LinkedHashSet<>();
        Map<String, Task> posted = new TreeMap<>();
        for (Told<Posting> told : postings) {
            if (told.item() == null || told.from().isAfter(moment.at())) {
                continue;
            }
            if (told.fact().change() == Posting.Change.ENDED) {
                ended.add(told.item());
            } else if (told.isTrueAt(moment.at()) && !ended.contains(told.item())) {
                Task task = tasks.get(new TaskId(told.item()));
                if (task != null) {
                    posted.put(task.code(), task);
                }
            }
        }
        return List.copyOf(posted.values());
    }

    private Map<Wall.View, BoardRow> line(Worker worker, Task task, List<InHand> held, Watch watch, Set<UUID> rests) {
        Map<Wall.View, BoardRow> best = new EnumMap<>(Wall.View.class);
        for (InHand set : held) {
            SetData data = loaded.data(set.id());
            if (data != null && models.containsKey(data.model())) {
                rests.addAll(loaded.restsOn(set.id()));
                Question question = Question.ofSet(site, worker.id(), task.id(), set.id(), wear, moment.knownAt());
                glance(best, watch, worker, task, question, set, data.model());
            }
        }
        if (!best.isEmpty()) {
            return best;
        }
        for (ModelId model : models.keySet()) {
            rests.add(model.value());
            String size = size(worker, model, watch);
            if (size != null) {
                Question question = Question.ofModel(site, worker.id(), task.id(), model, size, wear, moment.knownAt());
                glance(best, watch, worker, task, question, null, model);
            }
        }
        return best.isEmpty() ? same(new BoardRow(worker, task, null, null, null, null)) : best;
    }

    private static Map<Wall.View, BoardRow> same(BoardRow row) {
        Map<Wall.View, BoardRow> all = new EnumMap<>(Wall.View.class);
        VIEWS.forEach(view -> all.put(view, row));
        return all;
    }

    private void glance(
            Map<Wall.View, BoardRow> best,
            Watch watch,
            Worker worker,
            Task task,
            Question question,
            @Nullable InHand set,
            ModelId model) {
        String code = models.getOrDefault(model, "");
        String label = set == null ? null : set.label();
        Question asked = moment.isAtTheDoor() ? question.atTheDoor() : question;
        Assessment.glances(
                        VIEWS,
                        asked,
                        loaded.dossier(worker.id(), task.id(), set == null ? null : set.id(), label, model, code))
                .forEach((view, glance) -> {
                    watch.at(glance.holdsUntil());
                    best.merge(view, new BoardRow(worker, task, label, code, question.size(), glance), Round::better);
                });
    }

    private static BoardRow better(BoardRow one, BoardRow other) {
        if (one.glance() == null || other.glance() == null) {
            return other;
        }
        int order = other.glance().verdict().compareTo(one.glance().verdict());
        boolean fewer = other.glance().open() < one.glance().open();
        return order < 0 || (order == 0 && fewer) ? other : one;
    }

    /** The size this person would wear: one with a fit test for a mask, else the first that exists. */
    private @Nullable String size(Worker worker, ModelId model, Watch watch) {
        ModelFile file = loaded.model(model, models.getOrDefault(model, ""));
        ModelData data = newest(file.data(), watch);
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

    private static @Nullable ModelData newest(List<Told<ModelData>> data, Watch watch) {
        for (Told<ModelData> told : data) {
            if (!told.from().isAfter(watch.now)) {
                return told.fact();
            }
        }
        return null;
    }
}
