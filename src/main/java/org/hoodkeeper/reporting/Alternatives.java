package org.hoodkeeper.reporting;

import java.sql.Timestamp;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.OtherWays;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.programme.Site;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/**
 * The quickest proper ways to work today: another ready set of the same store that this person may wear, or another task the
 * person is posted to. At most three; looked for only when the answer is no.
 */
@Component
class Alternatives {

    static final int MOST = 3;
    static final int CANDIDATES = 12;
    /** Most sets on the shelf are ready: the first few most often hold the three that are looked for. */
    static final int FIRST = 4;

    /** Where what stood in front is no longer what the shelf says, the search goes on, three times as far each time. */
    private static final int FURTHER = 3;

    private static final int FURTHEST = 324;

    static final String IN_STORE = """
            select s.set_id, s.label from kit_shelf s
            where s.site_id = ? and s.set_id is distinct from ? and s.free_from <= ? and s.offers && ?::text[] and s.label > ?
            order by s.label limit ?""";

    private final Dossiers dossiers;
    private final JdbcTemplate jdbc;

    Alternatives(Dossiers dossiers, JdbcTemplate jdbc) {
        this.dossiers = dossiers;
        this.jdbc = jdbc;
    }

    /**
     * The verdicts are those that the reader may see: a condition behind the wall does not show through an alternative.
     *
     * @param refused the answer to the question, as the reader sees it
     * @param question asked at the door
     * @param label of the set in question; none where a model is asked about
     * @param codes of the site's models
     * @param taskCodes of its tasks
     * @param asked what was loaded for the question itself, which is added to
     */
    List<Answer.Alternative> find(
            Viewer viewer,
            Assessment.Staff staff,
            Site site,
            Answer refused,
            Question question,
            @Nullable String label,
            Map<ModelId, String> codes,
            Map<TaskId, String> taskCodes,
            Dossiers.Loaded asked) {
        Reader reader = new Reader(viewer, staff);
        List<Answer.Alternative> found = new ArrayList<>();
        int looked = 0;
        Dossiers.Loaded loaded = asked;
        Set<ModelId> hopeful = hopeful(refused, question, codes, asked);
        Set<String> offers = offers(hopeful, question, asked);
        Map<SetId, String> inStore = offers.isEmpty() ? Map.of() : inStore(site, question, offers, "", CANDIDATES);
        Set<TaskId> others = otherTasks(refused, question, asked);
        List<SetId> sets = List.copyOf(inStore.keySet());
        int read = 0;
        boolean tasksRead = others.isEmpty();
        while (found.size() < MOST && (read < sets.size() || !tasksRead)) {
            List<SetId> some = sets.subList(read, read == 0 ? Math.min(FIRST, sets.size()) : sets.size());
            read += some.size();
            // with the last sets, so that the longest search sends one statement less
            boolean last = read == sets.size() && (read > FIRST || some.isEmpty());
            loaded = dossiers.more(loaded, last ? others : Set.of(), some);
            tasksRead |= last;
            looked += addSets(found, reader, loaded, question, some, inStore, offers, codes);
        }
        SetId own = question.set();
        SetData data = own == null ? null : loaded.data(own);
        if (data != null && label != null && !data.emergency()) {
            for (TaskId task : others) {
                String taskCode = taskCodes.get(task);
                if (found.size() < MOST && taskCode != null) {
                    add(found, reader, loaded, question.at(task), label, data, codes, taskCode);
                }
            }
        }
        int portion = CANDIDATES;
        while (found.isEmpty() && looked < CANDIDATES && inStore.size() == portion && portion < FURTHEST) {
            portion *= FURTHER;
            String after = List.copyOf(inStore.values()).get(inStore.size() - 1);
            inStore = inStore(site, question, offers, after, portion);
            List<SetId> some = List.copyOf(inStore.keySet());
            loaded = dossiers.more(loaded, Set.of(), some);
            looked += addSets(found, reader, loaded, question, some, inStore, offers, codes);
        }
        return found;
    }

    /** @return how many of them were what the shelf said, and were asked about */
    private static int addSets(
            List<Answer.Alternative> found,
            Reader reader,
            Dossiers.Loaded loaded,
            Question question,
            List<SetId> candidates,
            Map<SetId, String> labels,
            Set<String> offers,
            Map<ModelId, String> codes) {
        int looked = 0;
        for (SetId candidate : candidates) {
            SetData data = loaded.data(candidate);
            if (found.size() < MOST && data != null && !data.emergency() && isOffered(data, offers)) {
                String label = Objects.requireNonNull(labels.get(candidate));
                add(found, reader, loaded, question.with(candidate), label, data, codes, null);
                looked++;
            }
        }
        return looked;
    }

    /** Where the person may be sent with the same set. */
    private static Set<TaskId> otherTasks(Answer refused, Question question, Dossiers.Loaded asked) {
        if (question.set() == null || !OtherWays.anotherTaskMayHelp(refused.reasons())) {
            return Set.of();
        }
        Set<TaskId> others = postedTasks(question, asked);
        others.remove(question.task());
        return others;
    }

    /** The models of which a set may be the way. */
    static Set<ModelId> hopeful(Answer refused, Question question, Map<ModelId, String> codes, Dossiers.Loaded asked) {
        if (!OtherWays.anotherSetMayHelp(refused.reasons())) {
            return Set.of();
        }
        Set<ModelId> hopeful = new LinkedHashSet<>(codes.keySet());
        Set<String> trained = OtherWays.trainedOn(
                question,
                asked.worker(question.worker()),
                asked.rules().at(question.wear().from()));
        if (trained != null) {
            hopeful.removeIf(model -> !trained.contains(codes.get(model)));
        }
        if (!OtherWays.sameModelMayHelp(refused.reasons())) {
            hopeful.remove(model(question, asked));
        }
        return hopeful;
    }

    private static @Nullable ModelId model(Question question, Dossiers.Loaded asked) {
        SetData data = question.set() == null ? null : asked.data(question.set());
        return data == null ? question.model() : data.model();
    }

    private static boolean isOffered(SetData data, Set<String> offers) {
        return offers.contains(offer(data.model(), data.size(), null))
                || offers.contains(offer(data.model(), data.size(), data.store() == null ? "" : data.store()));
    }

    private record Reader(Viewer viewer, Assessment.Staff staff) {}

    /** @param taskCode where another task is the way */
    private static void add(
            List<Answer.Alternative> found,
            Reader reader,
            Dossiers.Loaded loaded,
            Question question,
            String label,
            SetData data,
            Map<ModelId, String> codes,
            @Nullable String taskCode) {
        String code = codes.get(data.model());
        if (code == null) {
            return;
        }
        Answer answer = Assessment.judgeFor(
                reader.viewer(),
                reader.staff(),
                question,
                loaded.dossier(question.worker(), question.task(), question.set(), label, data.model(), code));
        if (answer.verdict() != Verdict.NOT_CLEARED) {
            found.add(new Answer.Alternative(
                    Objects.requireNonNull(question.set(), "ways are sets, or tasks for the set in question"),
                    label,
                    taskCode == null ? null : question.task(),
                    taskCode,
                    answer.verdict()));
        }
    }

    /**
     * Sets that nobody has in hand now nor had at the start, that may be of what is looked for, in the order of their labels. The
     * shelf knows each version of a set's data that was ever told: which of them counts is looked at with its records. A set on hold
     * has no place in it.
     */
    private Map<SetId, String> inStore(Site site, Question question, Set<String> offers, String after, int most) {
        Map<SetId, String> sets = new LinkedHashMap<>();
        jdbc.query(
                IN_STORE,
                row -> {
                    sets.put(new SetId(row.getObject(1, UUID.class)), row.getString(2));
                },
                site.id().value(),
                question.set() == null ? null : question.set().value(),
                Timestamp.from(question.wear().from()),
                offers.toArray(String[]::new),
                after,
                most);
        return sets;
    }

    /** As the shelf writes it. @param store none for any, empty for sets that belong to none */
    static String offer(ModelId model, String size, @Nullable String store) {
        return model.value() + "/" + size + (store == null ? "" : "/" + store);
    }

    /** A hood of another size does not sit: of the size asked about, or of size and store of the set in question. */
    private static Set<String> offers(Set<ModelId> hopeful, Question question, Dossiers.Loaded asked) {
        SetData own = question.set() == null ? null : asked.data(question.set());
        Set<String> offers = new LinkedHashSet<>();
        for (ModelId model : hopeful) {
            if (own != null) {
                offers.add(offer(model, own.size(), own.store() == null ? "" : own.store()));
            } else if (question.size() != null) {
                offers.add(offer(model, question.size(), null));
            }
        }
        return offers;
    }

    private static Set<TaskId> postedTasks(Question question, Dossiers.Loaded asked) {
        Set<TaskId> tasks = new LinkedHashSet<>();
        for (Told<Posting> told : asked.worker(question.worker()).postings()) {
            if (told.item() != null && told.isTrueAt(question.wear().from())) {
                tasks.add(new TaskId(told.item()));
            }
        }
        return tasks;
    }
}
