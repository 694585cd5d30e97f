package org.hoodkeeper.programme;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The sites this service keeps. A site is opened once and its code stays. */
@Service
@Transactional(readOnly = true)
public class SiteRegister {

    private static final Pattern CODE = Pattern.compile("[a-z0-9-]{2,20}");
    private static final Pattern RULE_SET = Pattern.compile("[a-z0-9-]{2,40}");
    private static final int LONGEST_NAME = 120;

    private final Sites sites;

    SiteRegister(Sites sites) {
        this.sites = sites;
    }

    public Optional<Site> find(String code) {
        return CODE.matcher(code).matches() ? sites.findByCode(code) : Optional.empty();
    }

    /** @throws NotFound when no site has this id */
    public Site get(SiteId id) {
        return sites.findById(id.value()).orElseThrow(() -> new NotFound("site.unknown"));
    }

    /** Every site, by name. */
    public List<Site> all() {
        return sites.findAllByOrderByName();
    }

    /**
     * Opens a site.
     *
     * @param code two to twenty small letters, digits or hyphens, not in use
     * @param name 1 to 120 signs
     * @param zone a place in the time-zone database (such as {@code Europe/London}), not a bare offset: an offset
     *     knows no summer time
     * @param firstRuleSet the rule set in force from the start, such as {@code uk}
     * @throws Refused {@code site.siteCode.form}, {@code site.siteCode.taken}, {@code site.siteName.length},
     *     {@code site.zone.offset} or {@code site.ruleSet.form}
     */
    @Transactional
    public Site open(String code, String name, ZoneId zone, String firstRuleSet) {
        if (!CODE.matcher(code).matches()) {
            throw new Refused("site.siteCode.form", code);
        }
        if (name.isBlank() || name.strip().length() > LONGEST_NAME) {
            throw new Refused("site.siteName.length", LONGEST_NAME);
        }
        if (!ZoneId.getAvailableZoneIds().contains(zone.getId())) {
            throw new Refused("site.zone.offset", zone.getId());
        }
        if (!RULE_SET.matcher(firstRuleSet).matches()) {
            throw new Refused("site.ruleSet.form", firstRuleSet);
        }
        if (sites.findByCode(code).isPresent()) {
            throw new Refused("site.siteCode.taken", code);
        }
        return sites.saveAndFlush(new Site(code, name.strip(), zone, firstRuleSet));
    }
}
