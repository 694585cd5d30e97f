package org.hoodkeeper.web;

/**
 * One entry of the navigation.
 *
 * @param key message key of its words
 * @param here whether the page shown lies under this entry
 */
public record NavLink(String href, String key, boolean here) {}
