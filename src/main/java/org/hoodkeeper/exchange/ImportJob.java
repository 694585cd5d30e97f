package org.hoodkeeper.exchange;

import java.time.Instant;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.jspecify.annotations.Nullable;

/**
 * A file on its way in.
 *
 * @param rows how many rows the file has, as far as it was read; the header not counted
 * @param checked how many of them were read
 * @param refused how many refusals there are; the report shows the first {@link Imports#SHOWN}
 * @param already rows that were on record before, with the same content
 * @param recorded rows recorded by this job
 * @param unjudged readings kept although their instrument was not valid, so that they do not count
 * @param disputed sets that two people are said to have: held until they are scanned
 */
public record ImportJob(
        UUID id,
        FileKind kind,
        Aim aim,
        State state,
        @Nullable String fileName,
        long rows,
        long checked,
        long refused,
        long already,
        long recorded,
        long unjudged,
        long disputed,
        AccountId startedBy,
        Instant startedAt) {

    public enum Aim {
        /** Look only; what is found right waits for a person's word. */
        TRY,
        RECORD
    }

    public enum State {
        WAITING,
        READING,
        COMPARING,
        /** Every row is right; nothing is recorded yet. */
        READY,
        RECORDING,
        RECORDED,
        /** At least one row cannot be recorded, so none was. */
        REFUSED,
        /** The instance that worked on it died, or the service failed. Nothing was recorded: send the file again. */
        BROKEN_OFF;

        public boolean isOver() {
            return this == READY || this == RECORDED || this == REFUSED || this == BROKEN_OFF;
        }
    }

    /** Rows that would be, or were, recorded anew. */
    public long fresh() {
        return rows - already - refused;
    }
}
