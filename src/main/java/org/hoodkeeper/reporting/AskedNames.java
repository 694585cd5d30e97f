package org.hoodkeeper.reporting;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/** What a question names, found by one statement, together with the moment at which it is asked. */
@Component
class AskedNames {

    /**
     * A site has some dozens of models and of tasks: all of them come along, since which of them a set or another way is of is known
     * only with its records.
     */
    private static final String FOUND = """
            select service_now(), w.id, w.number, w.employer, t.id, s.id, s.label,
                   array(select m.id from kit_model m where m.site_id = a.site order by m.code),
                   array(select m.code from kit_model m where m.site_id = a.site order by m.code),
                   array(select o.id from task o where o.site_id = a.site order by o.code),
                   array(select o.code from task o where o.site_id = a.site order by o.code)
            from (select ?::uuid as site, %s) a
            left join worker w on w.site_id = a.site and %s
            left join task t on t.site_id = a.site and %s
            left join kit_set s on s.site_id = a.site and %s""";

    static final String BY_NAME = FOUND.formatted(
            "?::text as worker, ?::text as task, ?::text as set",
            "w.number = a.worker",
            "t.code = a.task",
            "s.label = a.set");

    private static final String BY_ID = FOUND.formatted(
            "?::uuid as worker, ?::uuid as task, ?::uuid as set", "w.id = a.worker", "t.id = a.task", "s.id = a.set");

    private final JdbcTemplate jdbc;

    AskedNames(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    record Person(WorkerId id, String number, @Nullable String employer) {}

    /** What was found; asking for what was not says that it is unknown. */
    static final class Named {

        private final Instant now;
        private final @Nullable Person person;
        private final @Nullable TaskId task;
        private final @Nullable SetId set;
        private final @Nullable String label;
        private final Map<ModelId, String> models;
        private final Map<TaskId, String> tasks;
        private final Object[] asked;

        private Named(ResultSet row, Object[] asked) throws SQLException {
            this.asked = asked;
            now = row.getTimestamp(1).toInstant();
            UUID worker = row.getObject(2, UUID.class);
            person = worker == null ? null : new Person(new WorkerId(worker), row.getString(3), row.getString(4));
            UUID where = row.getObject(5, UUID.class);
            task = where == null ? null : new TaskId(where);
            UUID thing = row.getObject(6, UUID.class);
            set = thing == null ? null : new SetId(thing);
            label = row.getString(7);
            models = codes(row, 8, ModelId::new);
            tasks = codes(row, 10, TaskId::new);
        }

        /** @param column of the ids; their codes are in the next one */
        private static <I extends Id> Map<I, String> codes(ResultSet row, int column, Function<UUID, I> as)
                throws SQLException {
            UUID[] ids = (UUID[]) row.getArray(column).getArray();
            String[] written = (String[]) row.getArray(column + 1).getArray();
            Map<I, String> codes = new LinkedHashMap<>();
            for (int i = 0; i < ids.length; i++) {
                codes.put(as.apply(ids[i]), written[i]);
            }
            return codes;
        }

        Instant now() {
            return now;
        }

        /** @throws NotFound {@code worker.unknown} */
        Person worker() {
            return found(person, "worker.unknown", asked[1]);
        }

        /** @throws NotFound {@code task.unknown} */
        TaskId task() {
            return found(task, "task.unknown", asked[2]);
        }

        /** @throws NotFound {@code set.unknown} */
        SetId set() {
            return found(set, "set.unknown", asked[3]);
        }

        /** @throws NotFound {@code set.unknown} */
        String label() {
            return found(label, "set.unknown", asked[3]);
        }

        /** Codes of the site's models. */
        Map<ModelId, String> models() {
            return models;
        }

        /** Codes of the site's tasks. */
        Map<TaskId, String> tasks() {
            return tasks;
        }

        private static <T> T found(@Nullable T one, String otherwise, @Nullable Object asked) {
            if (one == null) {
                throw new NotFound(otherwise, asked);
            }
            return one;
        }
    }

    Named of(SiteId site, Asked asked) {
        return ask(BY_NAME, site.value(), asked.worker(), asked.task(), asked.set());
    }

    Named of(Question question) {
        return ask(
                BY_ID,
                question.site().value(),
                question.worker().value(),
                question.task().value(),
                value(question.set()));
    }

    private Named ask(String sql, @Nullable Object... asked) {
        List<Named> one = jdbc.query(sql, (row, n) -> new Named(row, asked), asked);
        return one.get(0);
    }

    private static @Nullable UUID value(@Nullable Id id) {
        return id == null ? null : id.value();
    }
}
