package org.hoodkeeper.web.store;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One line of a history.
 *
 * @param open the reader may open the record
 * @param late days late; 0 when told in time
 * @param at when it was true
 * @param told when the site was told, where that is not the same minute; else none
 * @param replaced it was corrected or withdrawn later
 */
public record Happening(
        String record,
        boolean open,
        Instant at,
        String what,
        @Nullable Instant told,
        long late,
        String by,
        boolean replaced) {}
