package org.hoodkeeper.web;

import org.jspecify.annotations.Nullable;

/**
 * One requirement as the table of reasons shows it; every text is already in the reader's words.
 *
 * @param result MET, MET_WITH_CONDITIONS, NOT_MET, UNKNOWN, NOT_APPLICABLE or TO_DO_AT_START
 * @param record what it rests on, null when nothing is on record
 * @param href the record's page, null when the reader may not open it
 * @param source clause and edition, or the site decision
 * @param ends when it ends, null when it does not end by the calendar
 * @param clearBy what clears it and who can do that, null when nothing is open
 */
public record ReasonLine(
        String result,
        String requirement,
        String why,
        @Nullable String record,
        @Nullable String href,
        @Nullable String source,
        @Nullable String ends,
        @Nullable String clearBy) {}
