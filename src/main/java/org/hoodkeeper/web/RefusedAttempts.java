package org.hoodkeeper.web;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.http.HttpStatus;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.HandlerMapping;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/**
 * Notes in the site's trail what was refused behind the gate: a form or file that was not taken, and an address of something that
 * is not there or not for this reader. What was typed is not noted: it may be a name or a symptom.
 */
@Configuration(proxyBeanMethods = false)
class RefusedAttempts implements WebMvcConfigurer, HandlerInterceptor {

    private static final String REFUSED = RefusedAttempts.class.getName();
    private static final Set<Integer> NOT_FOR_READERS =
            Set.of(HttpStatus.FORBIDDEN.value(), HttpStatus.NOT_FOUND.value());

    private final AuditTrail audit;
    private final People people;
    private final Kit kit;
    private final Programme programme;

    RefusedAttempts(AuditTrail audit, People people, Kit kit, Programme programme) {
        this.programme = programme;
        this.audit = audit;
        this.people = people;
        this.kit = kit;
    }

    /** Directly behind the gate: on the way back the site is still bound. */
    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        registry.addInterceptor(this).order(Ordered.HIGHEST_PRECEDENCE + 1);
    }

    @Override
    public void postHandle(
            HttpServletRequest request, HttpServletResponse response, Object handler, @Nullable ModelAndView page) {
        boolean refused = request.getAttribute(Surroundings.PAGE_ERRORS) instanceof Iterable<?> errors
                && errors.iterator().hasNext();
        request.setAttribute(REFUSED, refused);
    }

    @Override
    public void afterCompletion(
            HttpServletRequest request, HttpServletResponse response, Object handler, @Nullable Exception fault) {
        if (request.getDispatcherType() != DispatcherType.REQUEST) {
            return;
        }
        boolean reads = request.getMethod().equals("GET") || request.getMethod().equals("HEAD");
        boolean refused = reads
                ? NOT_FOR_READERS.contains(response.getStatus())
                : fault != null
                        || response.getStatus() >= HttpStatus.BAD_REQUEST.value()
                        || Boolean.TRUE.equals(request.getAttribute(REFUSED));
        if (refused) {
            Visit.of(request).ifPresent(visit -> note(visit, request, reads ? "address.refused" : "form.refused"));
        }
    }

    private void note(Visit visit, HttpServletRequest request, String kind) {
        AuditEntry entry = AuditEntry.of(kind)
                .by(visit.viewer().account())
                .from(request.getRemoteAddr())
                .saying(request.getMethod() + " " + pattern(request));
        UUID about = about(visit.viewer().site(), request);
        audit.record(visit.viewer().site(), about == null ? entry : entry.about(about));
    }

    private static String pattern(HttpServletRequest request) {
        return String.valueOf(request.getAttribute(HandlerMapping.BEST_MATCHING_PATTERN_ATTRIBUTE));
    }

    private @Nullable UUID about(SiteId site, HttpServletRequest request) {
        if (!(request.getAttribute(HandlerMapping.URI_TEMPLATE_VARIABLES_ATTRIBUTE) instanceof Map<?, ?> named)) {
            return null;
        }
        try {
            if (named.get("number") instanceof String number) {
                return people.byNumber(site, number).id().value();
            }
            if (named.get("code") instanceof String code && pattern(request).contains("/tasks/{code}")) {
                return programme.task(site, code).id().value();
            }
            if (named.get("code") instanceof String code && pattern(request).contains("/models/{code}")) {
                return kit.model(site, code).id().value();
            }
            if (named.get("label") instanceof String label) {
                return kit.set(site, label).id().value();
            }
            return null;
        } catch (NotFound nothing) {
            return null;
        }
    }
}
