package org.hoodkeeper.web.officer;

import jakarta.validation.constraints.NotNull;
import java.time.LocalDate;
import org.hoodkeeper.facts.Employment;
import org.jspecify.annotations.Nullable;

/** A person left, or came back. @param day the last day of employment, or the first day back */
public record EmploymentForm(
        @NotNull Employment.@Nullable Change change,
        @NotNull @Nullable LocalDate day) {}
