package org.hoodkeeper.store;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.calculation.wash.TurnRound;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.ModelData;
import org.jspecify.annotations.Nullable;

/**
 * How long the steps to a ready set usually take, for the earliest time of being ready; common practice, no source. An
 * examination, a part, a hold and whatever somebody else has to do have no usual time.
 */
public final class UsualTimes {

    private static final Duration WASH = Duration.ofMinutes(10);
    private static final Duration RINSE = Duration.ofMinutes(5);
    private static final Duration DRY = Duration.ofMinutes(90);
    private static final Duration TEST = Duration.ofMinutes(8);

    /** Wet time where no product is known yet. */
    private static final int WET_SECONDS = 120;

    private UsualTimes() {}

    /** When the sets of a batch are ready at the earliest: a step that should be over by now ends now, and the rest follows. */
    public static Instant ready(Washes.Batch batch, Instant now) {
        List<Duration> left = left(batch);
        Instant begun = batch.last().from();
        Instant first = TurnRound.earliest(begun, left.subList(0, 1));
        return batch.isOpen() && first.isBefore(now)
                ? TurnRound.earliest(now, left.subList(1, left.size()))
                : TurnRound.earliest(begun, left);
    }

    private static List<Duration> left(Washes.Batch batch) {
        Duration wet = Duration.ofSeconds(batch.wetSeconds() == null ? WET_SECONDS : batch.wetSeconds());
        return switch (batch.at()) {
            case STRIPPED -> List.of(WASH, wet, RINSE, DRY, TEST);
            case WASHED, WETTED, DRIED_OUT -> List.of(wet, RINSE, DRY, TEST);
            case RINSED -> List.of(DRY, TEST);
            case DRY, BROKEN_OFF -> List.of(TEST);
        };
    }

    /**
     * When a set is ready at the earliest if its steps are begun now, one after the other.
     *
     * @param model for its longest wet time; none where nothing is on record
     * @return none where one of the steps has no usual time
     */
    static @Nullable Instant ready(List<SetStep> steps, @Nullable ModelData model, Instant now) {
        List<Duration> left = new ArrayList<>();
        for (SetStep step : steps) {
            switch (step) {
                case CLEAN -> left.addAll(List.of(WASH, wet(model), RINSE, DRY));
                case FLOW_CHECK -> left.add(TEST);
                default -> {
                    return null;
                }
            }
        }
        return TurnRound.earliest(now, left);
    }

    private static Duration wet(@Nullable ModelData model) {
        return Duration.ofSeconds(
                model == null
                        ? WET_SECONDS
                        : model.productsForEveryPart().stream()
                                .mapToInt(ModelData.Product::wetSeconds)
                                .max()
                                .orElse(WET_SECONDS));
    }
}
