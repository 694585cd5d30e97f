package org.hoodkeeper.web.signin;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Optional;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.web.AtSite;
import org.hoodkeeper.web.Caller;
import org.hoodkeeper.web.SignedIn;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;

/** Who is signed in, for what stands around every page. */
@Component
class Reader implements Caller {

    @Override
    public Optional<SignedIn> of(HttpServletRequest request) {
        return Visit.of(request)
                .map(visit -> new SignedIn(
                        visit.account().name(),
                        new AtSite(visit.viewer(), visit.siteCode(), visit.siteName(), visit.zone())))
                .or(Reader::outsideOfSites);
    }

    private static Optional<SignedIn> outsideOfSites() {
        Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
        return authentication != null && authentication.getPrincipal() instanceof KnownAccount account
                ? Optional.of(new SignedIn(account.name(), null))
                : Optional.empty();
    }
}
