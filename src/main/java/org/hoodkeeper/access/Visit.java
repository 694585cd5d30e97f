package org.hoodkeeper.access;

import jakarta.servlet.http.HttpServletRequest;
import java.time.ZoneId;
import java.util.Optional;
import org.hoodkeeper.kernel.Viewer;

/**
 * A call of a page of one site, let in: who calls, and the site. A page's method takes it, or its {@link Viewer}, as a
 * parameter.
 *
 * @param zone in which the site's days begin and end
 */
public record Visit(Viewer viewer, KnownAccount account, String siteCode, String siteName, ZoneId zone) {

    private static final String ATTRIBUTE = Visit.class.getName();

    /** Under this name a page's template finds the site's code, which all its links begin with. */
    private static final String CODE = "site";

    /** The visit of this request; empty on pages without a site, or before the gate. */
    public static Optional<Visit> of(HttpServletRequest request) {
        return Optional.ofNullable((Visit) request.getAttribute(ATTRIBUTE));
    }

    /** For the gate alone. */
    public void noteIn(HttpServletRequest request) {
        request.setAttribute(ATTRIBUTE, this);
        request.setAttribute(CODE, siteCode);
    }
}
