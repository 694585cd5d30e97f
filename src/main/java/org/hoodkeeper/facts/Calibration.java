package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * An instrument was calibrated.
 *
 * @param outcome whether it left fit for use
 * @param asFoundInTolerance whether it was in tolerance as it came in; if not, results since the last good one are not accepted
 * @param factor what it shows for a true 1; 1.06 reads 6 % high
 * @param uncertainty expanded uncertainty of a reading, L/min; none where the certificate states none
 * @param celsius the condition for which its scale is right, degrees Celsius
 * @param hectopascals the pressure of that condition
 * @param lastDay last day on which it is valid
 * @param asFoundFactor what it showed for a true 1 as it came in, before anything was adjusted; none where that was not measured
 */
public record Calibration(
        Outcome outcome,
        boolean asFoundInTolerance,
        BigDecimal factor,
        @Nullable BigDecimal uncertainty,
        BigDecimal celsius,
        BigDecimal hectopascals,
        LocalDate lastDay,
        @Nullable String certificate,
        @Nullable BigDecimal asFoundFactor)
        implements Fact {}
