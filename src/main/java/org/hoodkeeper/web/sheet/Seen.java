package org.hoodkeeper.web.sheet;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.function.Supplier;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Meanwhile;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.RecordId;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.ModelAndView;

/**
 * For forms that state something whole, from what stands: the page says what it has seen, and who has not seen another's change
 * is shown it before anything is recorded.
 */
@Component
public class Seen {

    /** The hidden field. */
    public static final String FIELD = "seen";

    private final Meanwhile meanwhile;
    private final Sheets sheets;

    Seen(Meanwhile meanwhile, Sheets sheets) {
        this.meanwhile = meanwhile;
        this.sheets = sheets;
    }

    /** What the page carries: what was sent, else the newest there is. Empty where there is none. */
    public String field(Visit visit, HttpServletRequest request, Kind kind, Id about) {
        String sent = request.getParameter(FIELD);
        return sent == null ? newest(visit, kind, about) : sent;
    }

    private String newest(Visit visit, Kind kind, Id about) {
        RecordId newest = meanwhile.newest(visit.viewer().site(), kind, about);
        return newest == null ? "" : newest.toString();
    }

    /** @param seen as the page sent it; see {@link Meanwhile#requireSeen} */
    public void require(Visit visit, Kind kind, Id about, @Nullable String scope, String seen) {
        meanwhile.requireSeen(visit.viewer().site(), kind, about, scope, seen.isBlank() ? null : Sheets.recordId(seen));
    }

    /**
     * A page that goes back for any reason shows what stands, where that is news to it, and has then seen it.
     *
     * @param standing what stands, as the form would be filled with it; none where nothing does
     */
    public ModelAndView shown(
            Visit visit,
            ModelAndView page,
            Kind kind,
            Id about,
            String seen,
            String form,
            Supplier<? extends @Nullable Record> standing) {
        String newest = newest(visit, kind, about);
        if (!HttpStatus.UNPROCESSABLE_CONTENT.equals(page.getStatus()) || newest.equals(seen)) {
            return page;
        }
        Record stands = standing.get();
        page.addObject("standing", stands == null ? List.of() : sheets.said(visit, form, stands));
        page.addObject(FIELD, newest);
        return page;
    }
}
