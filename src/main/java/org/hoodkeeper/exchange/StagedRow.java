package org.hoodkeeper.exchange;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A row that was understood, before it is compared with what the site has.
 *
 * @param row as the file counts
 * @param code the name to enter, where the file enters names
 * @param person a person's name, in the file of workers
 * @param subject whom or what it is about; for a name to enter its id
 * @param reference the record that this one ends, as the file names it
 * @param body the fact's open part; none where only a name is entered
 * @param hidden the fact's private part
 * @param unjudged a reading whose instrument was not valid
 * @param brandNew the first row of a name that the site did not have
 */
record StagedRow(
        long row,
        @Nullable String code,
        @Nullable String person,
        @Nullable String employer,
        UUID subject,
        @Nullable UUID item,
        @Nullable String reference,
        @Nullable String scope,
        @Nullable Instant from,
        @Nullable Instant until,
        @Nullable String sourceId,
        @Nullable LocalDate toldClaimed,
        @Nullable String body,
        @Nullable String hidden,
        boolean unjudged,
        boolean brandNew) {}
