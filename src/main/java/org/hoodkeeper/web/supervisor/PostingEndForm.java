package org.hoodkeeper.web.supervisor;

import jakarta.validation.constraints.NotBlank;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A posting ends. */
public record PostingEndForm(
        @NotBlank @Nullable String task,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence) implements Timed {}
