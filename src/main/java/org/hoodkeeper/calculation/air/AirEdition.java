package org.hoodkeeper.calculation.air;

import java.math.BigDecimal;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Limits of breathing air by standard and edition, as certificates name them: limits changed.
 *
 * <p>Sources: EN 12021:2014 and 1999 by a test house's page (restated; carbon monoxide is what changed), no source for what else
 * the 1999 edition may have asked; US: 29 CFR 1910.134(i)(1)(ii), Grade D, and (i)(5)(ii) for compressors.
 */
public enum AirEdition {
    EN_12021_2014("EN 12021:2014", "20", "22", "5", "500", "0.5", DewPoint.FIVE_BELOW_LOWEST),
    EN_12021_1999("EN 12021:1999", "20", "22", "15", "500", "0.5", DewPoint.FIVE_BELOW_LOWEST),
    US_GRADE_D("US Grade D", "19.5", "23.5", "10", "1000", "5", DewPoint.TEN_FAHRENHEIT_BELOW_LOWEST);

    private final String title;
    private final BigDecimal oxygenFrom;
    private final BigDecimal oxygenTo;
    private final BigDecimal carbonMonoxide;
    private final BigDecimal carbonDioxide;
    private final BigDecimal oil;
    private final DewPoint dewPoint;

    /** How dry it must be. */
    enum DewPoint {
        /** 5 °C below the lowest temperature of the line; −11 °C where nobody knows that. */
        FIVE_BELOW_LOWEST("5", "-11"),
        /** 10 °F, that is 5.56 °C, below the ambient temperature; where nobody knows it, nothing passes. */
        TEN_FAHRENHEIT_BELOW_LOWEST("5.56", null);

        private final BigDecimal below;
        private final @Nullable BigDecimal whereUnknown;

        DewPoint(String below, @Nullable String whereUnknown) {
            this.below = new BigDecimal(below);
            this.whereUnknown = whereUnknown == null ? null : new BigDecimal(whereUnknown);
        }

        @Nullable BigDecimal most(@Nullable BigDecimal lowest) {
            return lowest == null ? whereUnknown : lowest.subtract(below);
        }
    }

    AirEdition(
            String title,
            String oxygenFrom,
            String oxygenTo,
            String carbonMonoxide,
            String carbonDioxide,
            String oil,
            DewPoint dewPoint) {
        this.title = title;
        this.oxygenFrom = new BigDecimal(oxygenFrom);
        this.oxygenTo = new BigDecimal(oxygenTo);
        this.carbonMonoxide = new BigDecimal(carbonMonoxide);
        this.carbonDioxide = new BigDecimal(carbonDioxide);
        this.oil = new BigDecimal(oil);
        this.dewPoint = dewPoint;
    }

    /** As certificates name it. */
    public String title() {
        return title;
    }

    /** The edition of that name; none for one whose limits are not held. Case and spaces do not matter. */
    public static @Nullable AirEdition named(String title) {
        String wanted = plain(title);
        return Stream.of(values())
                .filter(edition -> plain(edition.title).equals(wanted))
                .findFirst()
                .orElse(null);
    }

    private static String plain(String title) {
        StringBuilder plain = new StringBuilder();
        title.chars()
                .filter(Character::isLetterOrDigit)
                .map(Character::toLowerCase)
                .forEach(plain::appendCodePoint);
        return plain.toString();
    }

    /** @param lowest lowest temperature of the line, degrees Celsius; none where nobody knows it */
    public Map<AirSample.Component, AirLimit> limits(@Nullable BigDecimal lowest) {
        return Map.of(
                AirSample.Component.OXYGEN, AirLimit.of(oxygenFrom, oxygenTo),
                AirSample.Component.CARBON_MONOXIDE, AirLimit.of(null, carbonMonoxide),
                AirSample.Component.CARBON_DIOXIDE, AirLimit.of(null, carbonDioxide),
                AirSample.Component.OIL, AirLimit.of(null, oil),
                AirSample.Component.DEW_POINT, AirLimit.of(null, dewPoint.most(lowest)));
    }

    /** The dew point that counts where nobody knows the lowest temperature of the line; none where the edition names none. */
    public @Nullable BigDecimal dewPointWhereUnknown() {
        return dewPoint.most(null);
    }
}
