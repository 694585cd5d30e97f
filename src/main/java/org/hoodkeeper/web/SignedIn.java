package org.hoodkeeper.web;

import org.jspecify.annotations.Nullable;

/**
 * The reader of a page.
 *
 * @param person the name the reader goes by, as stored
 * @param at the site the page is about, null on pages outside of any site
 */
public record SignedIn(String person, @Nullable AtSite at) {}
