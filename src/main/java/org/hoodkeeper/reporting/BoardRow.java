package org.hoodkeeper.reporting;

import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Task;
import org.jspecify.annotations.Nullable;

/**
 * One person at one task.
 *
 * @param task none for a person who is posted nowhere
 * @param set label of the set in hand that does best; none where no set is issued
 * @param model code of the model judged
 * @param size the size judged where no set is issued
 * @param glance none where nothing can be judged: posted nowhere, or no model on the site
 */
public record BoardRow(
        Worker worker,
        @Nullable Task task,
        @Nullable String set,
        @Nullable String model,
        @Nullable String size,
        Assessment.@Nullable Glance glance) {}
