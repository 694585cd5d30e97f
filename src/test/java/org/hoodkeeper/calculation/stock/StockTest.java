package org.hoodkeeper.calculation.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.csv.CSVRecord;
import org.hoodkeeper.calculation.Published;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StockTest {

    /** 48 needed: 10 spares for 99 % at 8 % away, 7 at 5 %, 14 at 12 %; computed with an independent program. */
    @ParameterizedTest
    @CsvSource({"0.08, 10", "0.05, 7", "0.12, 14", "0, 0"})
    void sparesForAServiceLevel(double away, int spares) {
        assertThat(Spares.sets(48, away, 0.99)).isEqualTo(spares);
    }

    @Test
    void oneSpareFewerWouldNotDo() {
        assertThat(Spares.ready(57, 0.08, 48)).isLessThan(0.99);
        assertThat(Spares.ready(58, 0.08, 48)).isGreaterThanOrEqualTo(0.99);
        assertThat(Spares.sets(0, 0.5, 0.99)).isZero();
    }

    /** Mean demand 5.8 until the delivery: 10, 11, 13. Course notes, half a part an hour for four hours at 99 %: 6. */
    @ParameterizedTest
    @CsvSource({"5.8, 0.95, 10", "5.8, 0.98, 11", "5.8, 0.995, 13", "2, 0.99, 6", "0, 0.99, 0"})
    void reorderPoint(double mean, double level, int stock) {
        assertThat(Spares.reorderPoint(mean, level)).isEqualTo(stock);
    }

    /** The printed cumulative Poisson table, every row. */
    @Test
    void poissonTable() {
        for (CSVRecord row : Published.rows("poisson_cdf")) {
            assertThat(Spares.covered(Double.parseDouble(row.get("mu")), Integer.parseInt(row.get("k"))))
                    .as(row.toString())
                    .isCloseTo(Double.parseDouble(row.get("cdf")), within(0.00005001));
        }
    }

    /** Printed cumulative Poisson tables, four decimals, rows that every one of them has. */
    @ParameterizedTest
    @CsvSource({"2, 2, 0.6767", "5, 5, 0.6160", "10, 10, 0.5830"})
    void printedPoissonFigures(double mean, int most, double covered) {
        assertThat(Spares.covered(mean, most)).isCloseTo(covered, within(0.00005));
    }

    /** Printed Erlang B tables: so much traffic on so many places is lost by 1, 2 or 5 %; the traffic has three decimals, or two. */
    @ParameterizedTest
    @CsvSource({
        "10, 4.461, 0.01, 0.000005",
        "10, 5.084, 0.02, 0.00001",
        "10, 6.216, 0.05, 0.00001",
        "20, 12.03, 0.01, 0.00005"
    })
    void printedErlangFigures(int places, double traffic, double lost, double offset) {
        assertThat(Places.lost(places, traffic)).isCloseTo(lost, within(offset));
    }

    /** The printed Erlang B table: each traffic gives the blocking of its column. */
    @Test
    void erlangTable() {
        for (CSVRecord row : Published.rows("erlang_b_offered_traffic")) {
            for (String column : new String[] {"B0.001", "B0.01", "B0.02", "B0.05", "B0.10"}) {
                double blocking = Double.parseDouble(column.substring(1));
                double traffic = Double.parseDouble(row.get(column));
                assertThat(Places.lost(Integer.parseInt(row.get("servers")), traffic))
                        .as(row.toString())
                        .isCloseTo(blocking, within(blocking * 0.05));
            }
        }
    }

    /** B(10 E, 10) = 0.21458; C(2 E, 5) = 0.05970; C(8 E, 10) = 0.40918; two places at 1.5 E: 9/14. */
    @Test
    void erlangFigures() {
        assertThat(Places.lost(10, 10)).isCloseTo(0.21458, within(0.000005));
        assertThat(Places.waiting(5, 2)).isCloseTo(0.05970, within(0.000005));
        assertThat(Places.waiting(10, 8)).isCloseTo(0.40918, within(0.000005));
        assertThat(Places.waiting(2, 1.5)).isCloseTo(9.0 / 14, within(1e-12));
        assertThat(Places.waiting(2, 2)).isEqualTo(1);
    }

    @Test
    void fewestPlacesWithoutAQueue() {
        assertThat(Places.least(2, 0.06)).isEqualTo(5);
        assertThat(Places.least(2, 0.0596)).isEqualTo(6);
    }
}
