package org.hoodkeeper.calculation.parts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.calculation.parts.LookBackWindow.Check;
import org.hoodkeeper.calculation.parts.LookBackWindow.Refusal;
import org.hoodkeeper.calculation.parts.RecallNotice.Match;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.junit.jupiter.api.Test;

class PartsTest {

    private static final SetId S122 = new SetId(UUID.randomUUID());
    private static final SetId S140 = new SetId(UUID.randomUUID());

    private static Instant at(String time) {
        return Instant.parse(time + ":00Z");
    }

    private static PartTrace.Change hose(SetId set, String lot, String at) {
        return new PartTrace.Change(set, "hose", "HS-1", lot, null, null, at(at));
    }

    @Test
    void aPartIsInUntilTheNextIsFitted() {
        PartTrace trace = PartTrace.of(List.of(
                hose(S122, "H-2505A", "2026-10-03T09:00"),
                hose(S122, "H-2409B", "2026-06-12T09:00"),
                hose(S140, null, "2026-06-12T09:00")));
        assertThat(trace.of(S122, at("2026-10-03T08:59")))
                .extracting(Fitting::lot)
                .containsExactly("H-2409B");
        assertThat(trace.of(S122, at("2026-10-03T09:00")))
                .extracting(Fitting::lot)
                .containsExactly("H-2505A");
        assertThat(trace.of(S122, at("2026-06-12T08:59"))).isEmpty();
        assertThat(trace.ofLot("H-2409B")).singleElement().satisfies(fitting -> {
            assertThat(fitting.set()).isEqualTo(S122);
            assertThat(fitting.until()).isEqualTo(at("2026-10-03T09:00"));
        });
    }

    private static Fitting fitting(String lot, String serial, String made) {
        return new Fitting(
                S122,
                "hose",
                "HS-1",
                lot,
                serial,
                made == null ? null : LocalDate.parse(made),
                at("2026-01-01T00:00"),
                null);
    }

    private static RecallNotice lot(String lot) {
        return new RecallNotice(null, "hose", null, lot, Set.of(), null, null);
    }

    @Test
    void unknownCountsAsIn() {
        assertThat(lot("H-2409B").matches("H20", fitting("H-2409B", null, null)))
                .isEqualTo(Match.IN);
        assertThat(lot("H-2409B").matches("H20", fitting("H-2505A", null, null)))
                .isEqualTo(Match.OUT);
        assertThat(lot("H-2409B").matches("H20", fitting(null, null, null))).isEqualTo(Match.UNKNOWN);
        assertThat(Match.UNKNOWN.counts()).isTrue();
        assertThat(lot("H-2409B").matchesUnrecorded("H20", "hose", Set.of("HS-1")))
                .isEqualTo(Match.UNKNOWN);
        assertThat(lot("H-2409B").matchesUnrecorded("H20", "visor", Set.of("V-1")))
                .isEqualTo(Match.OUT);
    }

    @Test
    void everyMarkThatIsGivenMustFit() {
        RecallNotice notice = new RecallNotice(
                "H20",
                "hose",
                "HS-1",
                null,
                Set.of("9", "10"),
                LocalDate.parse("2025-01-01"),
                LocalDate.parse("2025-03-31"));
        assertThat(notice.matches("H20", fitting(null, "9", "2025-03-31"))).isEqualTo(Match.IN);
        assertThat(notice.matches("H20", fitting(null, "9", "2025-04-01"))).isEqualTo(Match.OUT);
        assertThat(notice.matches("H20", fitting(null, "11", null))).isEqualTo(Match.OUT);
        assertThat(notice.matches("H20", fitting(null, null, "2025-01-01"))).isEqualTo(Match.UNKNOWN);
        assertThat(notice.matches("H40", fitting(null, "9", "2025-02-01"))).isEqualTo(Match.OUT);
    }

    @Test
    void aRecallNamesSomething() {
        assertThatThrownBy(() -> new RecallNotice(null, null, null, null, Set.of(), null, null))
                .isInstanceOf(Refused.class);
    }

    private static Check check(String at, Refusal refusal) {
        return new Check(new RecordId(UUID.randomUUID()), at(at), refusal);
    }

    @Test
    void theWindowBeginsAtTheLastCheckThatWouldHaveCaughtIt() {
        Check good = check("2026-11-20T06:05", null);
        Check byEye = check("2026-11-24T06:05", Refusal.INSTRUMENT_NOT_NAMED);
        Check expired = check("2026-11-23T06:05", Refusal.INSTRUMENT_NOT_VALID);
        Check finding = check("2026-11-25T10:00", Refusal.BELOW_MINIMUM);
        LookBackWindow window = LookBackWindow.of(
                List.of(expired, good, finding, byEye, check("2026-11-01T06:00", null)),
                at("2026-11-25T10:00"),
                at("2026-11-25T10:00"));
        assertThat(window.from()).isEqualTo(at("2026-11-20T06:05"));
        assertThat(window.proof()).isEqualTo(good);
        assertThat(window.refused()).containsExactly(byEye, expired);
        assertThat(window.touches(at("2026-11-20T05:00"), at("2026-11-20T06:05")))
                .isFalse();
        assertThat(window.touches(at("2026-11-20T05:00"), at("2026-11-20T06:06")))
                .isTrue();
        assertThat(window.touches(at("2026-11-25T10:00"), null)).isFalse();
        assertThat(window.touches(at("2026-11-25T09:59"), null)).isTrue();
    }

    @Test
    void withoutAnyGoodCheckEverythingEverIsInside() {
        LookBackWindow window = LookBackWindow.of(List.of(), at("2026-11-25T10:00"), at("2026-11-25T10:00"));
        assertThat(window.from()).isNull();
        assertThat(window.touches(at("2020-01-01T00:00"), at("2020-01-01T04:00")))
                .isTrue();
    }
}
