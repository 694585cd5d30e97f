package org.hoodkeeper.web;

import java.time.ZoneId;
import org.hoodkeeper.kernel.Viewer;

/**
 * The reader of a page and the site the page is about.
 *
 * @param person the name the reader goes by, as stored
 * @param siteCode the site's short code, as printed on labels
 * @param zone the zone in which the site's days begin and end
 */
public record SignedIn(Viewer viewer, String person, String siteCode, String siteName, ZoneId zone) {}
