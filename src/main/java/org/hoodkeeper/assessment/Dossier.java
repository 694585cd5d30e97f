package org.hoodkeeper.assessment;

import java.time.Instant;
import java.time.ZoneId;
import java.util.function.Function;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.rules.RuleBook;
import org.jspecify.annotations.Nullable;

/**
 * Everything one question is judged on.
 *
 * @param set the set's file; none where a model is asked about
 * @param model the model asked about, or the set's
 * @param horizon nothing is known of what begins from then on: no window is promised beyond it
 * @param supplies the air supplies that the set hung on
 */
public record Dossier(
        ZoneId zone,
        WorkerFile worker,
        TaskFile task,
        @Nullable SetFile set,
        ModelFile model,
        Function<SupplyId, @Nullable SupplyFile> supplies,
        RuleBook rules,
        Instant horizon) {}
