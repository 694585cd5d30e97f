package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What puts the basis of a task in question, until the officer has closed it. */
@Service
@Transactional
public class TaskTriggers {

    private final Telling telling;
    private final Known known;

    TaskTriggers(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /** @throws Refused {@code trigger.what.missing}, {@code ledger.future} */
    public RecordId open(
            Author author, TaskId task, String what, @Nullable String note, Instant at, @Nullable String sourceId) {
        TaskTrigger trigger = new TaskTrigger(TaskTrigger.Step.OPENED, what, note);
        return telling.tell(author, Draft.of(trigger, task, at).source(sourceId), task);
    }

    /**
     * @param note how it was settled
     * @throws NotFound {@code record.unknown} when the task has no such trigger
     * @throws Refused {@code trigger.opened.closed} when it was closed before, {@code trigger.at.early},
     *     {@code trigger.note.missing}
     */
    public RecordId close(
            Author author, TaskId task, RecordId opened, String note, Instant at, @Nullable String sourceId) {
        Told<TaskTrigger> told = known.record(author.site(), TaskTrigger.class, Kind.TASK_TRIGGER, opened);
        if (told.fact().step() != TaskTrigger.Step.OPENED || !told.subject().equals(task.value())) {
            throw new NotFound("record.unknown", opened);
        }
        if (known.isDone(author.site(), Kind.TASK_TRIGGER, opened, TaskTrigger.Step.CLOSED)) {
            throw new Refused("trigger.opened.closed", told.from());
        }
        if (at.isBefore(told.from())) {
            throw new Refused("trigger.at.early", at, told.from());
        }
        TaskTrigger closed =
                new TaskTrigger(TaskTrigger.Step.CLOSED, told.fact().what(), note);
        return telling.tell(author, Draft.of(closed, task, at).item(opened).source(sourceId), task);
    }

    /** The triggers of a task that nothing has closed, newest first; notes left out. */
    @Transactional(readOnly = true)
    public List<Told<TaskTrigger>> open(SiteId site, TaskId task) {
        List<Told<TaskTrigger>> all = known.newest(site, TaskTrigger.class, Kind.TASK_TRIGGER, task);
        List<UUID> closed = all.stream()
                .filter(told -> told.fact().step() == TaskTrigger.Step.CLOSED)
                .map(Told::item)
                .toList();
        return all.stream()
                .filter(told -> told.fact().step() == TaskTrigger.Step.OPENED)
                .filter(told -> !closed.contains(told.id().value()))
                .toList();
    }
}
