package org.hoodkeeper.web.oversight;

import org.jspecify.annotations.Nullable;

/** @param from first day of the period; nothing for three months back @param until its last day; nothing for today */
public record IndicatorsForm(
        @Nullable String from, @Nullable String until) {}
