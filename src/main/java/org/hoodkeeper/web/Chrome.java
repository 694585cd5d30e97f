package org.hoodkeeper.web;

import java.time.ZoneId;
import java.util.List;
import org.hoodkeeper.kernel.Role;
import org.jspecify.annotations.Nullable;

/**
 * What stands around every page. Templates read it as {@code ${chrome}}, on error pages too.
 *
 * @param siteCode null outside of a site
 * @param zone the site's zone, null outside of a site
 * @param person null while nobody is signed in
 * @param links first pages of the reader's roles
 * @param languages the other languages this page can be read in
 * @param scans whether the reader looks labels up, so that each page has the field for it
 * @param banner message key of the line shown over every page of a demo or rehearsal, null elsewhere
 */
public record Chrome(
        @Nullable String siteCode,
        @Nullable String siteName,
        @Nullable ZoneId zone,
        @Nullable String person,
        List<NavLink> links,
        List<LanguageLink> languages,
        boolean scans,
        @Nullable String banner) {

    static Chrome of(@Nullable SignedIn reader, String path, List<LanguageLink> languages, @Nullable String banner) {
        String person = reader == null ? null : reader.person();
        AtSite at = reader == null ? null : reader.at();
        return at == null
                ? new Chrome(null, null, null, person, List.of(), languages, false, banner)
                : new Chrome(
                        at.code(),
                        at.name(),
                        at.zone(),
                        person,
                        Navigation.of(at, path),
                        languages,
                        scans(at, path),
                        banner);
    }

    /** The bench and the page of a label not found have a larger field of their own. */
    private static boolean scans(AtSite at, String path) {
        boolean may = at.viewer().is(Role.STOREKEEPER) || at.viewer().is(Role.OFFICER);
        return may && !path.endsWith("/bench") && !path.endsWith("/scan");
    }
}
