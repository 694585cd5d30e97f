package org.hoodkeeper.reporting;

import java.sql.Timestamp;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Kind;
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

    private static final int MOST = 3;
    static final int CANDIDATES = 12;

    static final String IN_STORE = """
            select s.set_id, s.label from kit_shelf s
            where s.site_id = ? and s.set_id is distinct from ? and s.free_from <= ?
              and (?::uuid is null or exists (
                   select 1 from ledger_record o join ledger_record r on r.site_id = o.site_id and r.kind = o.kind
                   where o.site_id = s.site_id and o.kind = ? and o.subject = ? and r.subject = s.set_id
                     and r.body ->> 'store' is not distinct from o.body ->> 'store'
                     and r.body ->> 'size' = o.body ->> 'size'))
              and (?::text is null or exists (
                   select 1 from ledger_record r
                   where r.site_id = s.site_id and r.kind = ? and r.subject = s.set_id and r.body ->> 'size' = ?))
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
     * @param label of the set in question; none where a model is asked about
     * @param codes of the site's models
     * @param asked what was loaded for the question itself, which is added to
     */
    List<Answer.Alternative> find(
            Viewer viewer,
            Assessment.Staff staff,
            Site site,
            Question question,
            @Nullable String label,
            Map<ModelId, String> codes,
            Dossiers.Loaded asked) {
        Reader reader = new Reader(viewer, staff);
        Map<SetId, String> inStore = inStore(site, question);
        Set<TaskId> posted = postedTasks(question, asked);
        Set<TaskId> others = new LinkedHashSet<>(posted);
        others.remove(question.task());
        Dossiers.Loaded loaded = dossiers.more(asked, others, inStore.keySet());
        List<Answer.Alternative> found = new ArrayList<>();
        for (Map.Entry<SetId, String> candidate : inStore.entrySet()) {
            SetData data = loaded.data(candidate.getKey());
            if (found.size() < MOST && data != null && !data.emergency() && sameSize(question, loaded, data)) {
                add(found, reader, loaded, question.with(candidate.getKey()), candidate.getValue(), data, codes, null);
            }
        }
        SetId own = question.set();
        if (own != null && label != null) {
            otherTasks(reader, question, own, label, posted, loaded, codes, found);
        }
        return found;
    }

    private record Reader(Viewer viewer, Assessment.Staff staff) {}

    private void otherTasks(
            Reader reader,
            Question question,
            SetId set,
            String label,
            Set<TaskId> posted,
            Dossiers.Loaded loaded,
            Map<ModelId, String> codes,
            List<Answer.Alternative> found) {
        SetData own = loaded.data(set);
        if (own == null) {
            return;
        }
        for (TaskId task : posted) {
            if (found.size() < MOST && !task.equals(question.task())) {
                add(found, reader, loaded, question.at(task), label, own, codes, task);
            }
        }
    }

    private static void add(
            List<Answer.Alternative> found,
            Reader reader,
            Dossiers.Loaded loaded,
            Question question,
            String label,
            SetData data,
            Map<ModelId, String> codes,
            @Nullable TaskId task) {
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
            found.add(new Answer.Alternative(question.set(), task, answer.verdict()));
        }
    }

    /** A hood of another size does not sit: the size asked about, or that of the set in question. */
    private static boolean sameSize(Question question, Dossiers.Loaded loaded, SetData data) {
        if (question.size() != null) {
            return data.size().equals(question.size());
        }
        SetData own = question.set() == null ? null : loaded.data(question.set());
        return own == null || own.size().equals(data.size());
    }

    /**
     * Sets that nobody has in hand now nor had at the start: of the store and size of the set in question, or of the size asked
     * about.
     */
    private Map<SetId, String> inStore(Site site, Question question) {
        Map<SetId, String> sets = new LinkedHashMap<>();
        jdbc.query(
                IN_STORE,
                row -> {
                    sets.put(new SetId(row.getObject(1, UUID.class)), row.getString(2));
                },
                site.id().value(),
                question.set() == null ? null : question.set().value(),
                Timestamp.from(question.wear().from()),
                question.set() == null ? null : question.set().value(),
                Kind.SET.number(),
                question.set() == null ? null : question.set().value(),
                question.size(),
                Kind.SET.number(),
                question.size(),
                CANDIDATES);
        return sets;
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
