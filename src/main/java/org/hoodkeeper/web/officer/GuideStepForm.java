package org.hoodkeeper.web.officer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** How a step of the guided work is done on one model. */
public record GuideStepForm(
        @NotNull GuideStepWords.@Nullable Use use,
        @Size(max = 2000) @Nullable String words,
        @NotBlank @Size(max = 2000) @Nullable String reason,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
