package org.hoodkeeper.programme;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Pattern;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ids;
import org.hoodkeeper.ledger.Ledger;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The tasks of a site and what the site decided. */
@Service
@Transactional(readOnly = true)
public class Programme {

    private static final Pattern CODE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,29}");

    private final Tasks tasks;
    private final Ledger ledger;
    private final RuleShelf rules;
    private final JdbcTemplate jdbc;

    Programme(Tasks tasks, Ledger ledger, RuleShelf rules, JdbcTemplate jdbc) {
        this.tasks = tasks;
        this.ledger = ledger;
        this.rules = rules;
        this.jdbc = jdbc;
    }

    /**
     * A task, with the basis it stands on from an instant.
     *
     * @throws Refused {@code task.code.form}, {@code task.code.taken}
     */
    @Transactional
    public TaskId addTask(Author author, String code, @Nullable TaskBasis basis, Instant from) {
        if (!CODE.matcher(code).matches()) {
            throw new Refused("task.code.form", code);
        }
        if (tasks.findByKeySiteIdAndCode(author.site().value(), code).isPresent()) {
            throw new Refused("task.code.taken", code);
        }
        TaskId id = tasks.save(new Task(author.site(), Ids.next(), code)).id();
        if (basis != null) {
            ledger.append(author, Draft.of(basis, id, from));
        }
        return id;
    }

    /** @throws NotFound {@code task.unknown} */
    public Task task(SiteId site, String code) {
        return tasks.findByKeySiteIdAndCode(site.value(), code).orElseThrow(() -> new NotFound("task.unknown", code));
    }

    /** @throws NotFound {@code task.unknown} */
    public Task task(SiteId site, TaskId id) {
        return tasks.findByKeySiteIdAndKeyId(site.value(), id.value())
                .orElseThrow(() -> new NotFound("task.unknown", id));
    }

    public List<Task> tasks(SiteId site) {
        return tasks.findByKeySiteIdOrderByCode(site.value());
    }

    /**
     * Decides something that the law leaves to the site, from an instant on.
     *
     * @param key the decision's key, with {@code /} and what it is about where it is made for one thing alone
     * @param decision value, owner and reason; both are required
     * @throws Refused {@code decision.owner}, {@code decision.reason}, {@code decision.key.unknown}, or as the key's form says
     */
    @Transactional
    public RecordId decide(Author author, String key, SiteDecision decision, Instant from) {
        if (decision.owner() == null || decision.owner().isBlank()) {
            throw new Refused("decision.owner");
        }
        if (decision.reason() == null || decision.reason().isBlank()) {
            throw new Refused("decision.reason");
        }
        rules.check(key, decision.value());
        return ledger.append(author, Draft.of(decision, author.site(), from).scope(key));
    }

    /**
     * Enters tasks from a file, whose codes were looked at. Safe to repeat with the same ids.
     *
     * @throws org.springframework.dao.DuplicateKeyException when somebody else has entered one of them meanwhile
     */
    @Transactional
    public void enlist(SiteId site, Map<UUID, String> codes) {
        jdbc.batchUpdate(
                "insert into task (site_id, id, code) values (?, ?, ?) on conflict on constraint task_pk do nothing",
                codes.entrySet().stream()
                        .map(one -> new Object[] {site.value(), one.getKey(), one.getValue()})
                        .toList());
    }
}
