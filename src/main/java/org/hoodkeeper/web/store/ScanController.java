package org.hoodkeeper.web.store;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.store.LabelCode;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Where a scanner, or a hand that types, says what it has. Only looks things up, so that a code read twice does no harm. */
@Controller
class ScanController {

    private final Kit kit;
    private final String prefix;

    /** @param prefix what the site's scanners put before each code, {@code hoodkeeper.scan.prefix}; mostly nothing */
    ScanController(Kit kit, @Value("${hoodkeeper.scan.prefix:}") String prefix) {
        this.kit = kit;
        this.prefix = prefix;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/scan")
    ModelAndView go(Visit visit, @RequestParam(required = false) @Nullable String code) {
        String bare = bare(code);
        if (bare.isEmpty()) {
            return new ModelAndView("redirect:/sites/" + visit.siteCode() + "/bench");
        }
        LabelCode read;
        try {
            read = LabelCode.read(bare);
        } catch (Refused misread) {
            return barred("store.misread", "refused." + misread.code(), bare);
        }
        if (!read.isOf(Objects.requireNonNull(visit.siteCode()))) {
            return barred("store.elsewhere", "store.elsewhere.said", read.label());
        }
        return Stream.of(read.label(), read.label().toUpperCase(Locale.ROOT))
                .flatMap(one -> found(visit.viewer().site(), one).stream())
                .findFirst()
                .map(path -> new ModelAndView("redirect:/sites/" + visit.siteCode() + path))
                .orElseGet(() -> nothing(read.label()));
    }

    private String bare(@Nullable String code) {
        String text = code == null ? "" : code.strip();
        return !prefix.isEmpty() && text.regionMatches(true, 0, prefix, 0, prefix.length())
                ? text.substring(prefix.length()).strip()
                : text;
    }

    private Optional<String> found(SiteId site, String code) {
        return kit.findSet(site, code)
                .map(set -> "/sets/" + set.label())
                .or(() -> kit.findInstrument(site, code).map(instrument -> "/instruments/" + instrument.code()))
                .or(() -> kit.findSupply(site, code).map(supply -> "/supplies/" + supply.code()));
    }

    /** The same for a bare label that nobody has and for one that only another site has. */
    static ModelAndView nothing(String code) {
        return barred("store.nothing", "store.nothing.said", code);
    }

    private static ModelAndView barred(String why, String said, String code) {
        ModelAndView page = new ModelAndView("store/not-found", HttpStatus.NOT_FOUND);
        page.addObject("why", why);
        page.addObject("said", said);
        page.addObject("code", code.length() > 40 ? code.substring(0, 40) : code);
        return page;
    }
}
