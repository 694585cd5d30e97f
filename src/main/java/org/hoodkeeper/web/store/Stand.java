package org.hoodkeeper.web.store;

import org.hoodkeeper.store.SetStep;
import org.hoodkeeper.store.ShelfSet;
import org.jspecify.annotations.Nullable;

/**
 * How a set stands, for its page and its row on the bench.
 *
 * @param tone the mark's tone: clear, half, barred or none
 * @param sentence says it in one sentence
 * @param why the first reason; none when nothing bars it
 * @param step what clears it, or is usual next; none when nothing is to do
 * @param proof what on record makes its place in life; none where nothing does
 */
public record Stand(
        ShelfSet set,
        String tone,
        String sentence,
        @Nullable String why,
        @Nullable SetStep step,
        @Nullable String proof) {}
