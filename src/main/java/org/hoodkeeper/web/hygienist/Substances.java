package org.hoodkeeper.web.hygienist;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.hoodkeeper.evidence.ExposureResults;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.stereotype.Component;

/** What the air of a task may hold by name: every substance with a limit on record, as the site spells it. */
@Component
class Substances {

    private final ExposureResults results;

    Substances(ExposureResults results) {
        this.results = results;
    }

    /** In their order; those whose limit begins later, too. */
    List<String> known(SiteId site) {
        return results.limits(site).stream()
                .map(Told::scope)
                .filter(Objects::nonNull)
                .distinct()
                .sorted()
                .toList();
    }

    /**
     * The site's own spelling, whatever capitals were typed: two spellings would be two substances, each with half of the results.
     * What is not known stays as typed, for the door to refuse.
     */
    String spelled(SiteId site, String typed) {
        return among(known(site), typed).orElse(typed);
    }

    /**
     * What was typed, if it is known so; else the one that differs in its capitals alone. Two spellings may be on record from before
     * they were refused, and what is meant of one must not be told of the other.
     *
     * @return none where neither is known
     */
    static Optional<String> among(List<String> known, String typed) {
        return known.contains(typed)
                ? Optional.of(typed)
                : known.stream().filter(typed::equalsIgnoreCase).findFirst();
    }
}
