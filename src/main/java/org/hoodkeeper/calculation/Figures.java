package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import org.hoodkeeper.kernel.Refused;

/** How this package calculates: 34 digits inside, 20 kept, so that 7 ÷ (7 × 1/300) is 300 and not a hair below it. */
final class Figures {

    static final MathContext INSIDE = MathContext.DECIMAL128;

    private static final MathContext KEPT = new MathContext(20, RoundingMode.HALF_EVEN);

    /** In tenths: far above what floating point loses on figures up to 10⁶. */
    private static final double CLOSE = 1e-4;

    /** The bounds that this package names. */
    private static final Map<String, BigDecimal> BOUNDS = new ConcurrentHashMap<>();

    private Figures() {}

    /** Takes away the last digits, where divisions and roots leave their rounding. */
    static BigDecimal settle(BigDecimal value) {
        return value.round(KEPT).stripTrailingZeros();
    }

    static BigDecimal tenthsDown(BigDecimal value) {
        return settle(value).setScale(1, RoundingMode.FLOOR);
    }

    /**
     * The same, most often from floating point alone: the exact figure is asked for only where the near one lies so close to a
     * tenth that its last digits could decide.
     *
     * @param near within one part in 10¹² of the exact figure; 0 to 10⁶
     */
    static BigDecimal tenthsDown(double near, Supplier<BigDecimal> exact) {
        double tenths = near * 10;
        return Math.abs(tenths - Math.rint(tenths)) < CLOSE
                ? tenthsDown(exact.get())
                : BigDecimal.valueOf((long) Math.floor(tenths), 1);
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

    private static BigDecimal bound(String written) {
        BigDecimal bound = BOUNDS.get(written);
        return bound == null ? BOUNDS.computeIfAbsent(written, BigDecimal::new) : bound;
    }

    static BigDecimal requireWithin(BigDecimal value, String least, String most, String code) {
        if (value.compareTo(bound(least)) < 0 || value.compareTo(bound(most)) > 0) {
            throw new Refused(code, value, least, most);
        }
        return value;
    }
}
