package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AirDensityTest {

    /**
     * US Standard Atmosphere 1976 / ICAO Doc 7488 by geopotential height, density and √(ρ0 ÷ ρ): the file names its rows' sources.
     * The table's own temperature and pressure go in, its density must come out.
     */
    @Test
    void standardAtmosphere() throws IOException {
        AirCondition seaLevel = air("15", "1013.25");
        int rows = 0;
        try (InputStream file = getClass().getResourceAsStream("/reference/standard_atmosphere.csv");
                InputStreamReader reader = new InputStreamReader(file, StandardCharsets.UTF_8)) {
            CSVFormat format = CSVFormat.RFC4180
                    .builder()
                    .setCommentMarker('#')
                    .setHeader()
                    .setSkipHeaderRecord(true)
                    .get();
            for (CSVRecord row : format.parse(reader)) {
                AirCondition there = new AirCondition(
                        decimal(row.get("T_K_H")).subtract(decimal("273.15")),
                        decimal(row.get("p_Pa_H")).movePointLeft(2));
                assertThat(AirDensity.dry(there)).isCloseTo(decimal(row.get("rho_H")), offset("0.00002"));
                assertThat(AirDensity.volumeFactor(AirDensity.dry(seaLevel), AirDensity.dry(there)))
                        .isCloseTo(decimal(row.get("sqrt_rho0_rho")), offset("0.00001"));
                if (decimal(row.get("alt_m")).intValue() <= 5_000) {
                    // the table is in pascals, to a tenth of one
                    assertThat(StandardAtmosphere.hectopascals(decimal(row.get("alt_m"))))
                            .isCloseTo(decimal(row.get("p_Pa_H")).movePointLeft(2), offset("0.01"));
                }
                rows++;
            }
        }
        assertThat(rows).isEqualTo(11);
    }

    /** US Standard Atmosphere 1976 as printed, by geometric height of 0, 2,000 and 4,000 m: kelvin, pascal, kg/m³; the pressure has five digits. */
    @ParameterizedTest
    @CsvSource({"288.15, 101320, 1.2250, 0.0001", "275.15, 79501, 1.0066, 0.0001", "262.17, 61660, 0.81935, 0.0001"})
    void printedAtmosphere(String kelvin, String pascal, String density, String offset) {
        AirCondition there = new AirCondition(
                decimal(kelvin).subtract(decimal("273.15")), decimal(pascal).movePointLeft(2));
        assertThat(AirDensity.dry(there)).isCloseTo(decimal(density), offset(offset));
    }

    /**
     * CIPM-2007 (Metrologia 45 (2008) 149-155) computed with an independent program at 0.0004 CO2; no published check value was
     * found. Against it the OIML R 111-1 formula agrees to 6e-5 inside its range, 5e-4 at the last point outside.
     */
    @ParameterizedTest
    @CsvSource({
        "20, 1013.25, 50, 1.19931, 0.00008",
        "20, 1013.25, 0, 1.20456, 0.00008",
        "20, 1000, 50, 1.18356, 0.00008",
        "23, 1013.25, 50, 1.18608, 0.00008",
        "25, 1013.25, 50, 1.17732, 0.00008",
        "35, 1013.25, 80, 1.12660, 0.00057"
    })
    void moistAir(String celsius, String hectopascals, String humidity, String expected, String offset) {
        assertThat(AirDensity.moist(air(celsius, hectopascals), decimal(humidity)))
                .isCloseTo(decimal(expected), offset(offset));
    }

    /** What leaving humidity out costs: 1.145 dry against 1.1266 moist at 35 °C and 80 %, so dry asks for 0.9 % more. */
    @Test
    void dryAirIsHeavierThanMoist() {
        assertThat(AirDensity.dry(air("35", "1013.25"))).isCloseTo(decimal("1.1455"), offset("0.0005"));
        assertThat(AirDensity.volumeFactor(decimal("1.1455"), decimal("1.1266")))
                .isCloseTo(decimal("1.0084"), offset("0.0001"));
    }

    /**
     * A flow-instrument note's worked example, as normal volume: air 1.293 kg/m³, 0.2 MPa gauge, 20 °C; carbon dioxide 1.977, 0.4
     * MPa gauge, 50 °C; reading 5 m³/h gives factor 0.994. Densities at the float worked out by hand from the gas laws.
     */
    @Test
    void carbonDioxideThroughAnAirScale() {
        BigDecimal calibration = decimal("3.58275"); // 1.293 × 301.325/101.325 × 273.15/293.15
        BigDecimal operating = decimal("8.26797"); // 1.977 × 501.325/101.325 × 273.15/323.15
        BigDecimal actual = AirDensity.volumeFactor(calibration, operating);
        BigDecimal pressureAndTemperature = decimal("1.509280"); // 501.325/301.325 × 293.15/323.15
        assertThat(actual.multiply(pressureAndTemperature)).isCloseTo(decimal("0.99352"), offset("0.00005"));
    }

    @Test
    void pressureInKilopascalsIsRefused() {
        assertThatThrownBy(() -> air("20", "101.325")).hasMessageContaining("calculation.pressure.range");
        assertThatThrownBy(() -> air("68", "1013")).hasMessageContaining("calculation.temperature.range");
        assertThatThrownBy(() -> AirDensity.moist(air("20", "1013"), decimal("101")))
                .hasMessageContaining("calculation.humidity.range");
    }

    private static AirCondition air(String celsius, String hectopascals) {
        return new AirCondition(decimal(celsius), decimal(hectopascals));
    }

    private static BigDecimal decimal(String value) {
        return new BigDecimal(value);
    }

    private static Offset<BigDecimal> offset(String value) {
        return Offset.offset(new BigDecimal(value));
    }
}
