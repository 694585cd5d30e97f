package org.hoodkeeper.web.officer;

import org.hoodkeeper.reporting.BoardRow;
import org.jspecify.annotations.Nullable;

/**
 * A row of the board in words.
 *
 * @param why the first reason; none when cleared without conditions
 * @param more how many further reasons stand in the way
 */
public record BoardLine(
        BoardRow row,
        @Nullable String requirement,
        @Nullable String why,
        int more,
        @Nullable String dueSoon) {}
