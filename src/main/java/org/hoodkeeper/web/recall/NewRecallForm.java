package org.hoodkeeper.web.recall;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A recall as the notice says it. @param model its code @param serials one in each line */
public record NewRecallForm(
        @Size(max = 120) @Nullable String notice,
        @Size(max = 120) @Nullable String model,
        @Size(max = 120) @Nullable String place,
        @Size(max = 120) @Nullable String part,
        @Size(max = 120) @Nullable String lot,
        @Size(max = 20_000) @Nullable String serials,
        @Nullable LocalDate madeFrom,
        @Nullable LocalDate madeUntil,
        @NotNull Recall.@Nullable Remedy remedy,
        @Nullable LocalDate swapBy,
        @NotBlank @Size(max = 2_000) @Nullable String reason,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    static final NewRecallForm EMPTY =
            new NewRecallForm(null, null, null, null, null, null, null, null, null, null, null, null, null);

    Recall toFact(@Nullable ModelId known) {
        return new Recall(
                known,
                place,
                part,
                lot,
                each(serials),
                madeFrom,
                madeUntil,
                Objects.requireNonNull(remedy),
                swapBy,
                notice,
                reason);
    }

    private static Set<String> each(@Nullable String lines) {
        return lines == null
                ? Set.of()
                : Stream.of(lines.split("[\\r\\n]+"))
                        .map(String::strip)
                        .filter(line -> !line.isEmpty())
                        .collect(Collectors.toSet());
    }
}
