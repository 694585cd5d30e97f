package org.hoodkeeper.web;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What stands around every page. Templates read it as {@code ${chrome}}, on error pages too.
 *
 * @param siteCode null while nobody is signed in
 * @param zone the site's zone; UTC while nobody is signed in
 * @param zoneKnown whether {@code zone} is a site's own, so that the footer may name it
 * @param person null while nobody is signed in
 * @param links first pages of the reader's roles
 * @param languages the other languages this page can be read in
 * @param banner message key of the line shown over every page of a demo or rehearsal, null elsewhere
 */
public record Chrome(
        @Nullable String siteCode,
        @Nullable String siteName,
        ZoneId zone,
        boolean zoneKnown,
        @Nullable String person,
        List<NavLink> links,
        List<LanguageLink> languages,
        @Nullable String banner) {

    static Chrome ofNobody(List<LanguageLink> languages, @Nullable String banner) {
        return new Chrome(null, null, ZoneOffset.UTC, false, null, List.of(), languages, banner);
    }

    static Chrome of(SignedIn reader, String path, List<LanguageLink> languages, @Nullable String banner) {
        return new Chrome(
                reader.siteCode(),
                reader.siteName(),
                reader.zone(),
                true,
                reader.person(),
                Navigation.of(reader.viewer(), path),
                languages,
                banner);
    }
}
