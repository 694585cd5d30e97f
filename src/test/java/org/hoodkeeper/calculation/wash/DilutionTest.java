package org.hoodkeeper.calculation.wash;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import org.apache.commons.csv.CSVRecord;
import org.assertj.core.data.Offset;
import org.hoodkeeper.calculation.Published;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DilutionTest {

    private static final BigDecimal WATER = new BigDecimal("998.20");

    /**
     * WHO handrub for 10 L: ethanol 96 % 8,333 mL, hydrogen peroxide 3 % 417 mL, glycerol 98 % 145 mL for 1.42 % (verified in the WHO guide). Isopropanol 99.8 %
     * 7,515 mL from memory. British Pharmacopoeia 20 % spirit: 207 mL of 96.3 % (mean strength) for 1,000 mL, by a pharmacy course.
     */
    @ParameterizedTest
    @CsvSource({
        "96, 80, 10000, 8333",
        "3, 0.125, 10000, 417",
        "98, 1.42, 10000, 145",
        "99.8, 75, 10000, 7515",
        "96.3, 20, 1000, 207"
    })
    void publishedRecipes(BigDecimal stock, BigDecimal wanted, BigDecimal volume, BigDecimal millilitres) {
        Dilution dilution = Dilution.fillUp(stock, wanted, volume);
        assertThat(dilution.product()).isCloseTo(millilitres, Offset.offset(new BigDecimal("1.0")));
        assertThat(dilution.product().add(dilution.water())).isEqualByComparingTo(volume);
    }

    /** WHO 2014, Annex G, table G.1: a 5 % product is 50,000 ppm; 1 part and 99 parts of water give 500 ppm; of 2.5 % 2 and 98. */
    @ParameterizedTest
    @CsvSource({"50000, 1, 99, 500", "25000, 2, 98, 500", "52500, 1, 9, 5250", "52500, 1, 10, 4773"})
    void partsOfBleachAndWater(BigDecimal stock, BigDecimal product, BigDecimal water, BigDecimal ppm) {
        assertThat(Dilution.strength(stock, product, water)).isCloseTo(ppm, Offset.offset(new BigDecimal("0.5")));
    }

    /**
     * 29 CFR 1910.134, App. B-2: about 1 mL of laundry bleach to 1 L for 50 ppm. 5.25 % by weight in volume is 50,006 mg/L of
     * available chlorine by the molar masses; 1 mL of it and 1 L of water give 49.96 mg/L.
     */
    @Test
    void aMillilitreOfBleachInALitreIsFiftyPartsPerMillion() {
        BigDecimal available = Dilution.availableChlorine(new BigDecimal("5.25"));
        assertThat(available).isEqualByComparingTo("50006");
        assertThat(Dilution.strength(available, BigDecimal.ONE, new BigDecimal("1000")))
                .isCloseTo(new BigDecimal("49.96"), Offset.offset(new BigDecimal("0.005")));
        assertThat(Dilution.fillUp(available, new BigDecimal("50"), new BigDecimal("1000"))
                        .product())
                .isEqualByComparingTo("1.00");
        assertThat(Dilution.fillUp(new BigDecimal("50000"), new BigDecimal("50.01"), new BigDecimal("1000"))
                        .product())
                .as("a dose is rounded up, never down")
                .isEqualByComparingTo("1.01");
    }

    /** Bleach sold today is stronger: 6 % gives 57.1, 8.25 % gives 78.5 mg/L by the same spoon. */
    @ParameterizedTest
    @CsvSource({"6, 57.1", "8.25, 78.5"})
    void strongerBleachOvershoots(BigDecimal percent, BigDecimal ppm) {
        BigDecimal strength =
                Dilution.strength(Dilution.availableChlorine(percent), BigDecimal.ONE, new BigDecimal("1000"));
        assertThat(strength).isCloseTo(ppm, Offset.offset(new BigDecimal("0.06")));
    }

    /**
     * OIML R 22 at 20 °C: to 1 L of 70 % belong 729.17 mL of 96 % and 297.35 mL of water, to 1 L of 80 % 833.33 and 186.76 mL: alcohol
     * and water shrink. Densities from the same table.
     */
    @ParameterizedTest
    @CsvSource({"70, 729.17, 297.35", "80, 833.34, 186.76"})
    void alcoholAndWaterShrink(String wanted, BigDecimal alcohol, BigDecimal water) {
        Dilution dilution = Dilution.byMass(
                new BigDecimal("96"),
                density("96.0"),
                new BigDecimal(wanted),
                density(wanted + ".0"),
                WATER,
                new BigDecimal("1000"));
        assertThat(dilution.product()).isEqualByComparingTo(alcohol);
        assertThat(dilution.water()).isCloseTo(water, Offset.offset(new BigDecimal("0.02")));
    }

    /** WHO: the ethanol handrub ends at 80 %, its peroxide at 0.125 %; what is measured out is what the solution holds. */
    @ParameterizedTest
    @CsvSource({"96, 8333, 1667, 79.997", "99.8, 7515, 2485, 74.9997", "3, 417, 9583, 0.1251"})
    void whatTheHandrubHolds(BigDecimal stock, BigDecimal product, BigDecimal rest, BigDecimal holds) {
        assertThat(Dilution.strength(stock, product, rest)).isCloseTo(holds, Offset.offset(new BigDecimal("0.0005")));
    }

    private static BigDecimal density(String percent) {
        return Published.rows("ethanol_oiml_r22_20C").stream()
                .filter(row -> row.get("q_pct").equals(percent))
                .map((CSVRecord row) -> new BigDecimal(row.get("rho")))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void bleachHalvesInItsHalfLife() {
        assertThat(Dilution.onTheShelf(new BigDecimal("50000"), 180, 180))
                .isCloseTo(new BigDecimal("25000"), Offset.offset(new BigDecimal("0.001")));
        assertThat(Dilution.onTheShelf(new BigDecimal("50000"), 180, 0)).isEqualByComparingTo("50000");
    }

    @Test
    void aWeakProductMakesNoStrongSolution() {
        assertThatThrownBy(() -> Dilution.fillUp(new BigDecimal("60"), new BigDecimal("70"), new BigDecimal("1000")))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("calculation.dilution.weaker");
    }
}
