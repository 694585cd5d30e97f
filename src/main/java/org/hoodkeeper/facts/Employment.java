package org.hoodkeeper.facts;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * A person leaves the site's employment, or comes back. Some records are kept for years counted from the end.
 *
 * @param lastDay the last day of employment, that day included; none when the person came back
 */
public record Employment(Change change, @Nullable LocalDate lastDay) implements Fact {

    public enum Change {
        ENDED,
        /** The person works here again: no end counts any more. */
        RESUMED
    }
}
