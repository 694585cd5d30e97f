package org.hoodkeeper.evidence;

import java.time.Instant;
import java.time.LocalDate;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Calibrations of instruments. */
@Service
@Transactional
public class Calibrations {

    private final Telling telling;
    private final Known known;

    Calibrations(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code calibration.lastDay.before} when it ends before it
     *     was done; {@code ledger.future} when it lies ahead
     */
    public RecordId record(
            Author author, InstrumentId instrument, Calibration calibration, Instant at, @Nullable String sourceId) {
        LocalDate day = Days.of(at, known.zone(author.site()));
        if (calibration.lastDay() != null && calibration.lastDay().isBefore(day)) {
            throw new Refused("calibration.lastDay.before", calibration.lastDay(), day);
        }
        return telling.tell(author, Draft.of(calibration, instrument, at).source(sourceId), instrument);
    }
}
