package org.hoodkeeper.web.record;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;

/** What can be recorded of a person or a task, and by whom. The path goes under the person's or the task's address. */
public enum Doing {
    MEDICAL_OUTCOME("medical-outcome", Of.PERSON, Role.HEALTH),
    TRAINING("training", Of.PERSON, Role.TRAINER),
    FIT_TEST("fit-test", Of.PERSON, Role.TRAINER),
    BOOKING("booking", Of.PERSON, Role.TRAINER, Role.OFFICER),
    OBSERVATION("observation", Of.PERSON, Role.SUPERVISOR, Role.OFFICER, Role.TRAINER),
    POSTING("posting", Of.PERSON, Role.SUPERVISOR, Role.OFFICER),
    POSTING_END("posting/end", Of.PERSON, Role.SUPERVISOR, Role.OFFICER),
    SUSPENSION("suspension", Of.PERSON, Role.SUPERVISOR, Role.OFFICER),
    SUSPENSION_END("suspension/end", Of.PERSON, Role.SUPERVISOR, Role.OFFICER),
    WEAR_ENTRY("wear/entry", Of.PERSON, Role.SUPERVISOR),
    WEAR_EXIT("wear/exit", Of.PERSON, Role.SUPERVISOR),
    SYMPTOMS("symptoms", Of.PERSON, Role.SUPERVISOR, Role.OFFICER),
    EMPLOYMENT("employment", Of.PERSON, Role.OFFICER),
    BASIS("basis", Of.TASK, Role.HYGIENIST),
    EXPOSURE_RESULT("exposure-result", Of.TASK, Role.HYGIENIST),
    CONDITION("condition", Of.TASK, Role.HYGIENIST, Role.SUPERVISOR, Role.OFFICER),
    TRIGGER("trigger", Of.TASK, Role.HYGIENIST, Role.OFFICER, Role.SUPERVISOR),
    TRIGGER_END("trigger/end", Of.TASK, Role.OFFICER, Role.HYGIENIST);

    private enum Of {
        PERSON,
        TASK
    }

    private final String path;
    private final Of of;
    private final Set<Role> roles;

    Doing(String path, Of of, Role... roles) {
        this.path = path;
        this.of = of;
        this.roles = Set.of(roles);
    }

    /** Where its page lies, under the address of the person or the task. */
    public String path() {
        return path;
    }

    /** What this reader records of a person. */
    public static List<Doing> ofPerson(Viewer viewer) {
        return of(Of.PERSON, viewer);
    }

    static List<Doing> ofTask(Viewer viewer) {
        return of(Of.TASK, viewer);
    }

    private static List<Doing> of(Of of, Viewer viewer) {
        return Stream.of(values())
                .filter(doing -> doing.of == of && doing.roles.stream().anyMatch(viewer::is))
                .toList();
    }
}
