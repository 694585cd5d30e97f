package org.hoodkeeper.web.oversight;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.facts.LookBack;
import org.hoodkeeper.web.Choice;
import org.jspecify.annotations.Nullable;

/** What follows from a look-back. @param measures none where nothing more is needed */
public record LookBackForm(
        @Nullable List<LookBack.@Nullable Measure> measures,
        @NotBlank @Size(max = 2_000) @Nullable String reason) {

    Set<LookBack.Measure> chosen() {
        return Set.copyOf(Choice.made(measures));
    }
}
