package org.hoodkeeper.web.officer;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class ModelControllerTest {

    @Autowired
    Desk desk;

    private static final String[] DATA = {
        "name",
        "Invented mask",
        "type",
        "FULL_MASK",
        "classes",
        "uk = FM-P3",
        "skinContact",
        "NO",
        "sizes",
        "S M",
        "sealRevision",
        "R2",
        "flowAt",
        "LOCAL",
        "filters",
        "PARTICLE",
        "products",
        "HYPO; 1000; ppm; 600",
        "slots",
        "visor; V-1 V-2; 60\nvalve; V-3;\nhose; H-1; ; 40; HYPO:900; hand-wash spray; 50\nfilter; F-1; ; ; ; never"
    };

    private static String[] with(String... more) {
        return Stream.concat(Stream.of(DATA), Stream.of(more)).toArray(String[]::new);
    }

    @Test
    void aChangeCountsFromItsTimeAndACorrectionReachesBack() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        var change = seat.records("/models/MASK-B/data", with("sort", "CHANGE", "at", "2026-06-01T06:00"));
        assertThat(change.told().corrects()).isNull();
        assertThat(change.told().from()).isEqualTo(Instant.parse("2026-06-01T05:00:00Z"));
        ModelData data = (ModelData) change.told().fact();
        assertThat(data.slots())
                .containsExactly(
                        new ModelData.Slot("visor", Set.of("V-1", "V-2"), 60),
                        new ModelData.Slot("valve", Set.of("V-3"), null),
                        new ModelData.Slot(
                                "hose",
                                Set.of("H-1"),
                                null,
                                new PartCare(
                                        new BigDecimal("40"),
                                        List.of(new PartCare.Bears("HYPO", 900)),
                                        Set.of(PartCare.Bath.HAND_WASH, PartCare.Bath.SPRAY),
                                        50,
                                        false)),
                        new ModelData.Slot(
                                "filter", Set.of("F-1"), null, new PartCare(null, List.of(), Set.of(), null, true)));
        assertThat(Desk.text(seat.get("/models/MASK-B/data")))
                .contains("hose; H-1; ; 40; HYPO:900; spray hand-wash; 50")
                .contains("filter; F-1; ; ; ; never");
        assertThat(data.products()).containsExactly(new ModelData.Product("HYPO", new BigDecimal("1000"), "ppm", 600));
        var correction = seat.records(
                "/models/MASK-B/data",
                with("sort", "CORRECTION", "because", "misread the leaflet", "at", "2026-02-01T06:00"));
        assertThat(correction.told().corrects()).isNotNull();
        assertThat(correction.told().from()).isEqualTo(Instant.parse("2026-01-05T06:00:00Z"));
    }

    /** Two open the page. The second is shown what the first recorded, and records only after having seen it. */
    @Test
    void whoComesSecondSeesTheFirstOnesChangeAndDecidesAgain() {
        Desk.Seat first = desk.sit(Role.OFFICER);
        String seen = seen(first);
        first.records("/models/MASK-B/data", with("sort", "CHANGE", "at", "2026-06-01T06:00", "seen", seen));
        String page = first.refuses(
                "/models/MASK-B/data",
                with("sort", "CHANGE", "name", "Other name", "at", "2026-06-02T06:00", "seen", seen));
        assertThat(page).contains("Somebody else", "What stands now", "Invented mask", "Other name");
        assertThat(page).doesNotContain("name=\"seen\" value=\"" + seen + "\"");
        first.records(
                "/models/MASK-B/data",
                with("sort", "CHANGE", "name", "Other name", "at", "2026-06-02T06:00", "seen", seen(first)));
    }

    private static String seen(Desk.Seat seat) {
        String page = Desk.text(seat.get("/models/MASK-B/data"));
        String field = "name=\"seen\" value=\"";
        int at = page.indexOf(field);
        assertThat(at).isPositive();
        return page.substring(at + field.length(), page.indexOf('"', at + field.length()));
    }

    @Test
    void thePageAsksWhichAndWhy() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(seat.refuses("/models/MASK-B/data", DATA)).contains("href=\"#sort\"");
        assertThat(seat.refuses("/models/MASK-B/data", with("sort", "CORRECTION")))
                .contains("href=\"#because\"");
        assertThat(seat.refuses("/models/MASK-B/data", with("sort", "CHANGE", "minimumFlow", "170")))
                .contains("href=\"#minimumFlow\"");
        assertThat(Desk.status(seat.get("/models/NONE/data"))).isEqualTo(404);
    }
}
