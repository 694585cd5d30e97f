package org.hoodkeeper.web.hygienist;

import java.util.List;
import java.util.Objects;
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
        return known(site).stream().filter(typed::equalsIgnoreCase).findFirst().orElse(typed);
    }
}
