package org.hoodkeeper.web;

import java.time.ZoneId;
import org.hoodkeeper.kernel.Viewer;

/**
 * The site a page is about, and what the reader is there.
 *
 * @param code the site's short code, as it stands in addresses
 * @param zone the zone in which the site's days begin and end
 */
public record AtSite(Viewer viewer, String code, String name, ZoneId zone) {}
