package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.hoodkeeper.kernel.Refused;

/** How this package calculates: 34 digits inside, 20 kept, so that 7 ÷ (7 × 1/300) is 300 and not a hair below it. */
final class Figures {

    static final MathContext INSIDE = MathContext.DECIMAL128;

    private static final MathContext KEPT = new MathContext(20, RoundingMode.HALF_EVEN);

    private Figures() {}

    /** Takes away the last digits, where divisions and roots leave their rounding. */
    static BigDecimal settle(BigDecimal value) {
        return value.round(KEPT).stripTrailingZeros();
    }

    static BigDecimal tenthsDown(BigDecimal value) {
        return settle(value).setScale(1, RoundingMode.FLOOR);
    }

    static BigDecimal tenthsUp(BigDecimal value) {
        return settle(value).setScale(1, RoundingMode.CEILING);
    }

    static BigDecimal requirePositive(BigDecimal value, String code) {
        if (value.signum() <= 0) {
            throw new Refused(code, value);
        }
        return value;
    }

    static BigDecimal requireNotNegative(BigDecimal value, String code) {
        if (value.signum() < 0) {
            throw new Refused(code, value);
        }
        return value;
    }

    static BigDecimal requireWithin(BigDecimal value, String least, String most, String code) {
        if (value.compareTo(new BigDecimal(least)) < 0 || value.compareTo(new BigDecimal(most)) > 0) {
            throw new Refused(code, value, least, most);
        }
        return value;
    }
}
