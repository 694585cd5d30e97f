package org.hoodkeeper.web;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriComponentsBuilder;

/** The languages the pages are written in. English first: it is the one used when nothing else fits. */
enum Languages {
    ENGLISH("en", "English"),
    SPANISH("es", "Español");

    private final String tag;
    private final String ownName;

    Languages(String tag, String ownName) {
        this.tag = tag;
        this.ownName = ownName;
    }

    Locale locale() {
        return Locale.forLanguageTag(tag);
    }

    static List<Locale> locales() {
        return List.of(values()).stream().map(Languages::locale).toList();
    }

    /** The language asked for by tag, whatever its region; empty for any other text. */
    static Optional<Locale> asked(@Nullable String text) {
        if (text == null) {
            return Optional.empty();
        }
        String language = Locale.forLanguageTag(text.replace('_', '-')).getLanguage();
        return locales().stream()
                .filter(locale -> locale.getLanguage().equals(language))
                .findFirst();
    }

    /** The first of a browser's languages that the pages are written in, else English. */
    static Locale asked(List<Locale> wanted) {
        return wanted.stream()
                .flatMap(locale -> asked(locale.toLanguageTag()).stream())
                .findFirst()
                .orElseGet(ENGLISH::locale);
    }

    /** Links to the shown page in every other language; the rest of the query is kept. */
    static List<LanguageLink> others(Locale shown, @Nullable String query) {
        return List.of(values()).stream()
                .filter(language -> !language.tag.equals(shown.getLanguage()))
                .map(language -> new LanguageLink(language.tag, language.ownName, language.href(query)))
                .toList();
    }

    private String href(@Nullable String query) {
        return UriComponentsBuilder.newInstance()
                .query(query == null ? "" : query)
                .replaceQueryParam(LanguageSettings.PARAMETER, tag)
                .build()
                .toUriString();
    }
}
