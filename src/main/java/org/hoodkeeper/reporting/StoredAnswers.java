package org.hoodkeeper.reporting;

import java.sql.Timestamp;
import java.util.Locale;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Ids;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.info.BuildProperties;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Answers that somebody acted on, kept as they were given. */
@Component
public class StoredAnswers {

    private final JdbcTemplate jdbc;
    private final String program;

    StoredAnswers(JdbcTemplate jdbc, ObjectProvider<BuildProperties> build) {
        this.jdbc = jdbc;
        BuildProperties built = build.getIfAvailable();
        String version = built == null ? null : built.getVersion();
        this.program = version == null ? "unbuilt" : version;
    }

    /** What the answer was for. */
    public enum Purpose {
        GATE,
        ISSUE,
        REPORT
    }

    /** @param answer the whole answer, as the service judged it, not as a reader saw it */
    @Transactional
    public UUID keep(Viewer viewer, Answer answer, Purpose purpose) {
        Question question = answer.question();
        UUID id = Ids.next();
        jdbc.update(
                """
                insert into stored_answer (site_id, id, asked_at, account_id, purpose, worker_id, task_id, set_id, model_id,
                                           wear_from, wear_until, known_at, verdict, records, rule_sets, program)
                values (?, ?, service_now(), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)""",
                viewer.site().value(),
                id,
                viewer.account().value(),
                purpose.name().toLowerCase(Locale.ROOT),
                question.worker().value(),
                question.task().value(),
                value(question.set()),
                value(question.model()),
                Timestamp.from(question.wear().from()),
                Timestamp.from(question.wear().until()),
                Timestamp.from(question.knownAt()),
                answer.verdict().name(),
                Stream.concat(answer.deciding().stream(), answer.decisions().stream())
                        .distinct()
                        .map(RecordId::value)
                        .toArray(UUID[]::new),
                String.join(", ", answer.ruleSets()),
                program);
        return id;
    }

    /**
     * What the gate was told when somebody went in. The answer was kept for the time that was told then, so that every earlier
     * version of the entry is looked at: to mend a slip of its time takes no refusal away.
     *
     * @param entry the entry, or the whole wear, in any version
     * @return none where the entry came without a question, as in a file
     */
    @Transactional(readOnly = true)
    public @Nullable Verdict atGate(SiteId site, RecordId entry) {
        return jdbc.queryForList("""
                        with recursive version as (
                            select r.id, r.corrects, r.subject, r.true_from from ledger_record r where r.site_id = ? and r.id = ?
                            union all
                            select r.id, r.corrects, r.subject, r.true_from from version v
                            join ledger_record r on r.site_id = ? and r.id = v.corrects)
                        select a.verdict from version v
                        join stored_answer a on a.site_id = ? and a.worker_id = v.subject and a.wear_from = v.true_from
                        where a.purpose = 'gate'
                        order by a.asked_at desc, a.id desc limit 1""", String.class, site.value(), entry.value(), site.value(), site.value()).stream()
                .map(Verdict::valueOf)
                .findFirst()
                .orElse(null);
    }

    private static @Nullable UUID value(org.hoodkeeper.kernel.@Nullable Id id) {
        return id == null ? null : id.value();
    }
}
