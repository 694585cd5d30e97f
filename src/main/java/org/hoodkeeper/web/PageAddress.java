package org.hoodkeeper.web;

import java.util.LinkedHashMap;
import java.util.Map;
import org.hoodkeeper.access.Visit;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriComponents;
import org.springframework.web.util.UriComponentsBuilder;

/**
 * The address of a list with what was asked of it. Each value is encoded whole, so that a plus, a brace or an ampersand that was
 * typed comes back as it was typed.
 */
public final class PageAddress {

    private final UriComponentsBuilder address;
    private final Map<String, Object> values = new LinkedHashMap<>();

    private PageAddress(String path) {
        this.address = UriComponentsBuilder.fromPath(path);
    }

    /** @param path below the site, as {@code /records} */
    public static PageAddress of(Visit visit, String path) {
        return new PageAddress("/sites/" + visit.siteCode() + path);
    }

    /** What was left empty is left out. */
    public PageAddress with(String name, @Nullable Object value) {
        if (value != null && !value.toString().isBlank()) {
            values.put(name, value);
            address.queryParam(name, "{" + name + "}");
        }
        return this;
    }

    /** What follows the question mark; empty where nothing was asked. */
    public String query() {
        String query = whole().getQuery();
        return query == null ? "" : query;
    }

    @Override
    public String toString() {
        return whole().toUriString();
    }

    private UriComponents whole() {
        return address.cloneBuilder().encode().buildAndExpand(values);
    }
}
