package org.hoodkeeper.web;

/**
 * The same page in another language.
 *
 * @param language its BCP 47 tag
 * @param name the language's own name, never translated
 * @param href a query relative to the page shown
 */
public record LanguageLink(String language, String name, String href) {}
