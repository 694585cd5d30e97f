package org.hoodkeeper.assessment;

import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * What a refusal says of other ways before they are looked at: a bar that lies on the person stands whatever set is taken, and
 * one that lies on the set stands at every task. Each says no only where the same requirement would bar the other way as well,
 * or nothing is known of its model, which bars too; what may help is still to be judged.
 */
public final class OtherWays {

    /** Judged of person and task alone. */
    private static final Set<RequirementKind> WHATEVER_SET = EnumSet.of(
            RequirementKind.POSTING,
            RequirementKind.PERSON_HOLD,
            RequirementKind.SYMPTOM_REVIEW,
            RequirementKind.BASIS,
            RequirementKind.TASK_TRIGGER);

    /** The same of an outcome, whose other limits depend on the device. */
    private static final Set<Why> WHATEVER_DEVICE =
            EnumSet.of(Why.UNFIT, Why.TEMPORARILY_UNFIT, Why.WEAR_LIMIT, Why.HEAT_LIMIT, Why.WORK_RATE_LIMIT);

    /** The same of an outcome: its heat and work rate are those of the task. */
    private static final Set<Why> OF_PERSON_AND_DEVICE = EnumSet.of(
            Why.UNFIT, Why.TEMPORARILY_UNFIT, Why.WEAR_LIMIT, Why.MISSING, Why.LAPSED, Why.INTERFACE_EXCLUDED);

    /** Judged of person, task and model: the same for every set of it. */
    private static final Set<RequirementKind> OF_MODEL = EnumSet.of(
            RequirementKind.TRAINING,
            RequirementKind.WEAR_TIME,
            RequirementKind.ATMOSPHERE,
            RequirementKind.ADEQUACY,
            RequirementKind.FILTER);

    /** Judged without the task. */
    private static final Set<RequirementKind> WHATEVER_TASK = EnumSet.of(
            RequirementKind.TRAINING,
            RequirementKind.SYMPTOM_REVIEW,
            RequirementKind.FIT_TEST,
            RequirementKind.PERSON_HOLD,
            RequirementKind.WEAR_TIME,
            RequirementKind.KIT_HOLD,
            RequirementKind.PARTS,
            RequirementKind.PART_LIFE,
            RequirementKind.FILTER_LIFE,
            RequirementKind.EXAMINATION,
            RequirementKind.FLOW,
            RequirementKind.CLEAN,
            RequirementKind.BATTERY,
            RequirementKind.AIR_SUPPLY,
            RequirementKind.AIR_PURIFIER,
            RequirementKind.SUPPLY_HOLD);

    private OtherWays() {}

    /** Whether another set of any model may be the way. */
    public static boolean anotherSetMayHelp(List<Reason> reasons) {
        return reasons.stream().noneMatch(OtherWays::barsWhateverSet);
    }

    /** Whether another set of the same model may be. */
    public static boolean sameModelMayHelp(List<Reason> reasons) {
        return reasons.stream().noneMatch(reason -> barsWhateverSet(reason) || barsModel(reason));
    }

    /** Whether the same set may be worn at another task. */
    public static boolean anotherTaskMayHelp(List<Reason> reasons) {
        return reasons.stream().noneMatch(OtherWays::barsWhateverTask);
    }

    /** Bars the same person at the same task with every set. */
    public static boolean barsWhateverSet(Reason reason) {
        return reason.result().bars()
                && (WHATEVER_SET.contains(reason.kind())
                        || (reason.kind() == RequirementKind.MEDICAL && WHATEVER_DEVICE.contains(reason.why())));
    }

    /** Bars the same person at the same task with every set of the model. */
    public static boolean barsModel(Reason reason) {
        return reason.result().bars()
                // a fit test is of one size and seal, and another set of the model may have those that were measured
                && !(reason.kind() == RequirementKind.ADEQUACY && reason.why() == Why.FIT_TEST_SHORT)
                && (OF_MODEL.contains(reason.kind())
                        || (reason.kind() == RequirementKind.INTERFACE && reason.why() == Why.NOT_FOR_TASK));
    }

    /** Bars the same person with the same set at every task. */
    public static boolean barsWhateverTask(Reason reason) {
        return reason.result().bars()
                && (WHATEVER_TASK.contains(reason.kind())
                        || (reason.kind() == RequirementKind.MEDICAL && OF_PERSON_AND_DEVICE.contains(reason.why())));
    }

    /**
     * The models on which the person was trained by the plan's start and showed the skill.
     *
     * @return none where some device may be worn without: then every model may be a way
     */
    public static @Nullable Set<String> trainedOn(Question question, WorkerFile worker, InForce atStart) {
        for (InterfaceType type : InterfaceType.values()) {
            if (atStart.demand(RequirementKind.TRAINING, type) == null) {
                return null;
            }
        }
        Set<String> trained = new HashSet<>();
        for (Told<Training> told : worker.trainings()) {
            if (told.scope() != null
                    && !told.from().isAfter(question.wear().from())
                    && told.fact().outcome() == Outcome.PASS
                    && told.fact().demonstrated()) {
                trained.add(told.scope());
            }
        }
        return trained;
    }
}
