package org.hoodkeeper.web.store;

import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.List;
import java.util.stream.Stream;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/**
 * A batch that begins, or its next step. A step is recorded when its button is pressed: the clocks are real.
 *
 * @param labels the sets of a batch that begins, apart by spaces, commas or lines
 * @param stock strength of the product as bought, and {@code litres} of solution, for the dose
 */
public record WashForm(
        @Size(max = 4_000) @Nullable String labels,
        WashStep.@Nullable Step next,
        @Nullable BigDecimal celsius,
        @Nullable String product,
        @Nullable BigDecimal strength,
        @Nullable BigDecimal stock,
        @Nullable BigDecimal litres)
        implements Timed {

    static WashForm empty() {
        return new WashForm(null, null, null, null, null, null, null);
    }

    List<String> chosen() {
        return labels == null
                ? List.of()
                : Stream.of(labels.split("[\\s,;]+"))
                        .filter(label -> !label.isEmpty())
                        .distinct()
                        .toList();
    }

    @Override
    public @Nullable LocalDateTime at() {
        return null;
    }

    @Override
    public @Nullable Occurrence atOccurrence() {
        return null;
    }
}
