package org.hoodkeeper.access.edge;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.Public;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.HandlerMapping;

/**
 * Stands before every page. A page that does not say who may call it is refused; a site where the caller holds no role
 * looks like one that does not exist; and while a page of a site is answered, the database shows that site's rows only.
 */
@Component
class Gate implements HandlerInterceptor {

    /** The request attribute which says that the gate let the call through. */
    static final String PASSED = Gate.class.getName() + ".passed";

    private static final String BOUND = SiteBinding.Bound.class.getName();
    private static final String SITE_VARIABLE = "site";

    private final SiteRegister sites;
    private final Accounts accounts;
    private final AuditTrail audit;

    Gate(SiteRegister sites, Accounts accounts, AuditTrail audit) {
        this.sites = sites;
        this.accounts = accounts;
        this.audit = audit;
    }

    @Override
    public boolean preHandle(HttpServletRequest request, HttpServletResponse response, Object handler)
            throws IOException {
        if (!(handler instanceof HandlerMethod page) || ErrorController.class.isAssignableFrom(page.getBeanType())) {
            return true;
        }
        if (page.hasMethodAnnotation(Public.class)) {
            return pass(request);
        }
        Allowed allowed = page.getMethodAnnotation(Allowed.class);
        Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
        if (allowed == null
                || authentication == null
                || !(authentication.getPrincipal() instanceof KnownAccount account)) {
            response.sendError(HttpServletResponse.SC_FORBIDDEN);
            return false;
        }
        String code = siteCode(request);
        return code == null
                ? enter(allowed, account, authentication, request, response)
                : enterSite(code, allowed, account, authentication, request, response);
    }

    @Override
    public void afterCompletion(
            HttpServletRequest request, HttpServletResponse response, Object handler, @Nullable Exception e) {
        if (request.getAttribute(BOUND) instanceof SiteBinding.Bound bound) {
            request.removeAttribute(BOUND);
            bound.close();
        }
    }

    private boolean enter(
            Allowed allowed,
            KnownAccount account,
            Authentication authentication,
            HttpServletRequest request,
            HttpServletResponse response)
            throws IOException {
        Set<Role> held = new HashSet<>();
        accounts.rolesOf(account.id()).stream().map(RoleGrant::role).forEach(held::add);
        if (authentication instanceof TokenAuthentication token) {
            held.retainAll(token.roles());
        }
        if (allowed.self() || Stream.of(allowed.value()).anyMatch(held::contains)) {
            return pass(request);
        }
        audit.record(AuditEntry.of("access.refused")
                .by(account.id())
                .from(request.getRemoteAddr())
                .saying(called(request)));
        response.sendError(HttpServletResponse.SC_FORBIDDEN);
        return false;
    }

    private boolean enterSite(
            String code,
            Allowed allowed,
            KnownAccount account,
            Authentication authentication,
            HttpServletRequest request,
            HttpServletResponse response)
            throws IOException {
        Optional<Site> site = sites.find(code);
        Optional<Viewer> viewer = site.flatMap(known -> viewer(known, account, authentication))
                .flatMap(seen -> within(seen, authentication));
        if (site.isEmpty() || viewer.isEmpty()) {
            audit.record(AuditEntry.of("access.noSuchSite")
                    .by(account.id())
                    .from(request.getRemoteAddr())
                    .saying(called(request)));
            response.sendError(HttpServletResponse.SC_NOT_FOUND);
            return false;
        }
        if (!allowed.self() && !viewer.get().isAny(allowed.value())) {
            SiteBinding.run(
                    site.get().id(),
                    () -> audit.record(
                            site.get().id(),
                            AuditEntry.of("access.refused")
                                    .by(account.id())
                                    .from(request.getRemoteAddr())
                                    .saying(called(request))));
            response.sendError(HttpServletResponse.SC_FORBIDDEN);
            return false;
        }
        new Visit(viewer.get(), account, code, site.get().name(), site.get().zone()).noteIn(request);
        request.setAttribute(BOUND, SiteBinding.bind(site.get().id()));
        return pass(request);
    }

    private Optional<Viewer> viewer(Site site, KnownAccount account, Authentication authentication) {
        return authentication instanceof TokenAuthentication token
                        && token.site().equals(site.id())
                ? token.holder()
                : accounts.viewer(site.id(), account.id());
    }

    /** What a token leaves of the viewer: nothing on another site, nor without any of the token's roles. */
    private static Optional<Viewer> within(Viewer viewer, Authentication authentication) {
        if (!(authentication instanceof TokenAuthentication token)) {
            return Optional.of(viewer);
        }
        Set<Role> left = new HashSet<>(viewer.roles());
        left.retainAll(token.roles());
        if (!token.site().equals(viewer.site()) || left.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Viewer(
                viewer.site(),
                viewer.account(),
                left,
                left.contains(Role.WORKER) ? viewer.worker() : null,
                left.contains(Role.EMPLOYER) ? viewer.employer() : null));
    }

    private static boolean pass(HttpServletRequest request) {
        request.setAttribute(PASSED, true);
        return true;
    }

    private static @Nullable String siteCode(HttpServletRequest request) {
        return request.getAttribute(HandlerMapping.URI_TEMPLATE_VARIABLES_ATTRIBUTE) instanceof Map<?, ?> variables
                ? (String) variables.get(SITE_VARIABLE)
                : null;
    }

    /** The mapping, not the address: that may hold a secret. */
    private static String called(HttpServletRequest request) {
        return request.getMethod() + " " + request.getAttribute(HandlerMapping.BEST_MATCHING_PATTERN_ATTRIBUTE);
    }
}
