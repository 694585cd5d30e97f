package org.hoodkeeper.calculation;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/** Published tables and data sets under {@code reference/}; the head of each file names its source and what is certified. */
public final class Published {

    private Published() {}

    /** @param name without folder and ending */
    public static List<CSVRecord> rows(String name) {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setCommentMarker('#')
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (InputStreamReader reader = new InputStreamReader(
                Objects.requireNonNull(
                        Published.class.getResourceAsStream("/reference/" + name + ".csv"), "no data set " + name),
                StandardCharsets.UTF_8)) {
            return format.parse(reader).getRecords();
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    public static double[] column(String name, String column) {
        return rows(name).stream()
                .mapToDouble(row -> Double.parseDouble(row.get(column)))
                .toArray();
    }
}
