package org.hoodkeeper.programme;

import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** The sites this service keeps. A site is opened once and its code stays. */
@Service
@Transactional(readOnly = true)
public class SiteRegister {

    private static final Pattern CODE = Pattern.compile("[a-z0-9-]{2,20}");
    private static final Pattern RULE_SET = Pattern.compile("[a-z0-9-]{2,40}");
    private static final int LONGEST_NAME = 120;

    private final Sites sites;
    /** A site's row never changes, so what was found once is found again without asking. */
    private final Map<String, Site> byCode = new ConcurrentHashMap<>();

    private final Map<SiteId, Site> byId = new ConcurrentHashMap<>();

    SiteRegister(Sites sites) {
        this.sites = sites;
    }

    @Transactional(propagation = Propagation.SUPPORTS)
    public Optional<Site> find(String code) {
        Site known = byCode.get(code);
        return known != null ? Optional.of(known) : lookUp(code);
    }

    private Optional<Site> lookUp(String code) {
        Optional<Site> found = CODE.matcher(code).matches() ? sites.findByCode(code) : Optional.empty();
        found.ifPresent(site -> byCode.put(code, site));
        return found;
    }

    /** @throws NotFound when no site has this id */
    @Transactional(propagation = Propagation.SUPPORTS)
    public Site get(SiteId id) {
        Site known = byId.get(id);
        if (known == null) {
            known = sites.findById(id.value()).orElseThrow(() -> new NotFound("site.unknown"));
            byId.put(id, known);
        }
        return known;
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
