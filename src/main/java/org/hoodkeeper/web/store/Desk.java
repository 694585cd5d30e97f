package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.MomentForm;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.Way;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.validation.BindingResult;
import org.springframework.web.servlet.ModelAndView;

/** How every form of the store goes: as everywhere, but with a larger page to look answers over, and back to the thing itself. */
@Component
class Desk {

    private static final String CHECK = "store/check";

    private final Bench bench;
    private final Sheets sheets;
    private final Show show;
    private final Refusals refusals;

    Desk(Bench bench, Sheets sheets, Show show, Refusals refusals) {
        this.bench = bench;
        this.sheets = sheets;
        this.show = show;
        this.refusals = refusals;
    }

    /** The time at which the page is made, by the clock that stamps what is told. */
    Instant now() {
        return sheets.now();
    }

    /** The moment in the address; now, and said beside it, where it cannot be read. */
    Moment moment(Visit visit, MomentForm asked, BindingResult shape) {
        Instant now = now();
        try {
            return asked.moment(visit.zone(), now);
        } catch (Refused refused) {
            refusals.show(refused, shape, "at");
            return Moment.of(null, false, now);
        }
    }

    /** The set at a moment, by what was known of it. @throws org.hoodkeeper.kernel.NotFound {@code set.unknown} */
    ShelfSet set(Visit visit, String label, Moment moment) {
        return bench.one(visit.viewer().site(), label, moment.at(), moment.knownAt());
    }

    /** @throws org.hoodkeeper.kernel.NotFound {@code set.unknown} */
    ShelfSet set(Visit visit, String label) {
        return bench.one(visit.viewer().site(), label, now());
    }

    /** @throws org.hoodkeeper.store.NotCleared as the engine says of an issue */
    ModelAndView take(Visit visit, HttpServletRequest request, BindingResult typed, DeskSheet sheet) {
        Way way = new Way(
                sheet.name(),
                sheet.view(),
                CHECK,
                sheet.check(),
                sheet.record(),
                done -> sheet.onward() + "?done=" + done);
        return sheets.take(visit, request, typed, way);
    }

    /** The time in the reader's words; "now" where nothing was typed is the time of recording. */
    @Nullable String when(Timed form, ZoneId zone) {
        LocalDateTime at = form.at();
        return at == null ? null : show.instant(form.instant(zone, now()), zone);
    }
}
