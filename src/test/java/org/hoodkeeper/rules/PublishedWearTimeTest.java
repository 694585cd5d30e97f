package org.hoodkeeper.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.commons.csv.CSVRecord;
import org.hoodkeeper.calculation.Published;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.rules.PublishedWearTime.Device;
import org.hoodkeeper.rules.PublishedWearTime.Source;
import org.junit.jupiter.api.Test;

/** The published table is the outside check; 9999 stands in it for no limit. */
class PublishedWearTimeTest {

    private static final Map<String, Device> NAMES = new LinkedHashMap<>(Map.of(
            "full mask P2", Device.FULL_MASK_P2,
            "full mask P3", Device.FULL_MASK_P3,
            "half mask P2", Device.HALF_MASK_P2,
            "half mask P3", Device.HALF_MASK_P3,
            "filtering half mask without exhalation valve", Device.FACEPIECE_WITHOUT_VALVE,
            "filtering half mask with exhalation valve", Device.FACEPIECE_WITH_VALVE,
            "powered full mask", Device.POWERED_FULL_MASK,
            "powered half mask", Device.POWERED_HALF_MASK,
            "powered hood or helmet", Device.POWERED_HOOD));

    private static Integer minutes(CSVRecord row, String column) {
        int value = Integer.parseInt(row.get(column));
        return value == 9_999 ? null : value;
    }

    @Test
    void theTableOfWearTimesIsReproduced() {
        for (CSVRecord row : Published.rows("dguv_112_190_wear_time")) {
            PublishedWearTime one = PublishedWearTime.all().stream()
                    .filter(time -> time.source() == Source.DGUV && time.device() == NAMES.get(row.get("device")))
                    .findFirst()
                    .orElseThrow();
            assertThat(one.minutes()).as(row.get("device")).isEqualTo(minutes(row, "wear_min"));
            assertThat(one.perShift()).as(row.get("device")).isEqualTo(minutes(row, "per_shift_min"));
            if (one.minutes() != null) {
                assertThat(one.rest()).as(row.get("device")).isEqualTo(minutes(row, "recovery_min"));
            }
        }
        assertThat(Published.rows("dguv_112_190_wear_time")).hasSize(9);
    }

    @Test
    void aHoodHasNoLimitButInAsbestosWork() {
        assertThat(PublishedWearTime.of(InterfaceType.POWERED_HOOD))
                .extracting(PublishedWearTime::source, PublishedWearTime::perShift)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(Source.DGUV, null),
                        org.assertj.core.groups.Tuple.tuple(Source.ASBESTOS, 360),
                        org.assertj.core.groups.Tuple.tuple(Source.ASBESTOS_DEMOLITION, 240));
        assertThat(Source.DENMARK.mark()).isEqualTo(Mark.RESTATED);
        assertThat(PublishedWearTime.of(InterfaceType.BREATHING_APPARATUS)).isEmpty();
    }
}
