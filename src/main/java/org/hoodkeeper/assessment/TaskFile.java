package org.hoodkeeper.assessment;

import java.util.List;
import java.util.Map;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.TaskId;

/** What is known of a task; lists as in {@link WorkerFile}. @param limits by substance, of the whole site */
public record TaskFile(
        TaskId id,
        List<Told<TaskBasis>> bases,
        List<Told<TaskTrigger>> triggers,
        List<Told<Hold>> holds,
        List<Told<MeasuredCondition>> conditions,
        ResultShelf results,
        Map<String, List<Told<Limit>>> limits) {}
