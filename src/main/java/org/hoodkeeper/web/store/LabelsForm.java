package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import java.util.stream.Stream;
import org.hoodkeeper.store.LabelSheet;
import org.jspecify.annotations.Nullable;

/** Which labels, on which sheet. @param labels those alone, apart by spaces, commas or lines; all of the sort when empty */
public record LabelsForm(
        @NotNull @Nullable What what,
        @Size(max = 4_000) @Nullable String labels,
        @NotNull @Nullable LabelSheet sheet,
        @Nullable Integer first) {

    enum What {
        SETS,
        INSTRUMENTS,
        SUPPLIES
    }

    List<String> chosen() {
        return labels == null
                ? List.of()
                : Stream.of(labels.split("[\\s,;]+"))
                        .filter(label -> !label.isEmpty())
                        .distinct()
                        .toList();
    }
}
