package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.web.sheet.Desk;

/** What is typed of the air at BLAST, over and over: silica, limit 0.1 mg/m³. Each takes changes as names and values. */
final class Air {

    static final String RESULT = "/tasks/BLAST/exposure-result";
    static final String BASIS = "/tasks/BLAST/basis";
    static final String LIMIT = "/limits/new";

    /** Silica in mg/m³: UTL 1.42 by the deciding statistic (SciPy 1.17.1). */
    static final String[] SIX = {"0.62", "0.38", "1.10", "0.55", "0.81", "0.47"};

    private Air() {}

    static void limit(Desk.Seat seat, String... changes) {
        seat.records(LIMIT, changed(limit("at", "2026-01-05T07:00"), changes));
    }

    static String[] limit(String... changes) {
        return changed(
                new String[] {
                    "substance", "silica",
                    "value", "0.1",
                    "unit", "mg/m3",
                    "filters", "PARTICLE",
                    "airFedOnly", "NO",
                    "source", "EH40/2005",
                    "mark", "RESTATED"
                },
                changes);
    }

    static String[] sample(String... changes) {
        return changed(
                new String[] {
                    "substance", "silica",
                    "value", "0.3",
                    "unit", "mg/m3",
                    "period", "SHIFT",
                    "belowDetection", "NO",
                    "at", "2026-03-02T07:00"
                },
                changes);
    }

    static String[] assessment(String exposures, String... changes) {
        return changed(
                new String[] {
                    "exposures", exposures,
                    "mixture", "ADDITIVE",
                    "atmosphere", "ORDINARY",
                    "assessor", "H. Ives",
                    "workRate", "HEAVY"
                },
                changes);
    }

    private static String[] changed(String[] typed, String... changes) {
        Map<String, String> fields = fields(typed);
        fields.putAll(fields(changes));
        return fields.entrySet().stream()
                .flatMap(field -> Stream.of(field.getKey(), field.getValue()))
                .toArray(String[]::new);
    }

    private static Map<String, String> fields(String... namesAndValues) {
        Map<String, String> fields = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            fields.put(namesAndValues[i], namesAndValues[i + 1]);
        }
        return fields;
    }

    /** The page on which what was typed is looked over: nothing is recorded by it. */
    static String looksOver(Desk.Seat seat, String path, String... namesAndValues) {
        Map<String, String> sent = fields(namesAndValues);
        sent.put("formKey", UUID.randomUUID().toString());
        sent.put("step", "check");
        var page = seat.post(path, sent);
        assertThat(Desk.status(page)).as(Desk.text(page)).isEqualTo(200);
        return Desk.text(page);
    }
}
