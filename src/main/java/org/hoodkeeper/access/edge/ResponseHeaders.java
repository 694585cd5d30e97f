package org.hoodkeeper.access.edge;

import jakarta.servlet.DispatcherType;
import java.util.List;
import java.util.stream.Stream;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.security.web.header.HeaderWriter;
import org.springframework.security.web.header.HeaderWriterFilter;
import org.springframework.security.web.header.writers.ContentSecurityPolicyHeaderWriter;
import org.springframework.security.web.header.writers.CrossOriginOpenerPolicyHeaderWriter;
import org.springframework.security.web.header.writers.CrossOriginResourcePolicyHeaderWriter;
import org.springframework.security.web.header.writers.HstsHeaderWriter;
import org.springframework.security.web.header.writers.PermissionsPolicyHeaderWriter;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter;
import org.springframework.security.web.header.writers.StaticHeadersWriter;
import org.springframework.security.web.header.writers.XContentTypeOptionsHeaderWriter;
import org.springframework.security.web.servlet.util.matcher.PathPatternRequestMatcher;
import org.springframework.security.web.util.matcher.OrRequestMatcher;
import org.springframework.security.web.util.matcher.RequestMatcher;

/**
 * The same headers on every answer: pages, files, refusals and what is thrown out before it reaches a page. Written
 * first of all and by one filter, so that no kind of answer goes without (OWASP ASVS 5.0.0, 3.4).
 */
@Configuration(proxyBeanMethods = false)
class ResponseHeaders {

    /** No nonce: there is no inline script or style, so that a page not changed may be answered 304. */
    static final String CONTENT = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
            + "connect-src 'self'; manifest-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

    /** The camera reads labels; a passkey is asked for on our own pages. */
    static final String PERMISSIONS = "camera=(self), publickey-credentials-get=(self), "
            + "publickey-credentials-create=(self), geolocation=(), microphone=(), payment=(), usb=(), serial=(), "
            + "bluetooth=(), display-capture=()";

    @Bean
    FilterRegistrationBean<HeaderWriterFilter> responseHeadersFilter() {
        HeaderWriterFilter filter = new HeaderWriterFilter(writers());
        filter.setShouldWriteHeadersEagerly(true);
        FilterRegistrationBean<HeaderWriterFilter> registration = new FilterRegistrationBean<>(filter);
        registration.setDispatcherTypes(DispatcherType.REQUEST, DispatcherType.ERROR);
        registration.setOrder(Ordered.HIGHEST_PRECEDENCE + 10);
        return registration;
    }

    private static List<HeaderWriter> writers() {
        HeaderWriter notKept = new StaticHeadersWriter("Cache-Control", "no-store");
        RequestMatcher files = new OrRequestMatcher(Stream.of(OpenAddresses.FILES)
                .map(PathPatternRequestMatcher::pathPattern)
                .toArray(RequestMatcher[]::new));
        return List.of(
                new ContentSecurityPolicyHeaderWriter(CONTENT),
                new XContentTypeOptionsHeaderWriter(),
                new ReferrerPolicyHeaderWriter(ReferrerPolicyHeaderWriter.ReferrerPolicy.SAME_ORIGIN),
                opener(),
                resources(),
                new PermissionsPolicyHeaderWriter(PERMISSIONS),
                new HstsHeaderWriter(),
                (request, response) -> {
                    if (!files.matches(request)) {
                        notKept.writeHeaders(request, response);
                    }
                });
    }

    private static HeaderWriter opener() {
        var writer = new CrossOriginOpenerPolicyHeaderWriter();
        writer.setPolicy(CrossOriginOpenerPolicyHeaderWriter.CrossOriginOpenerPolicy.SAME_ORIGIN);
        return writer;
    }

    private static HeaderWriter resources() {
        var writer = new CrossOriginResourcePolicyHeaderWriter();
        writer.setPolicy(CrossOriginResourcePolicyHeaderWriter.CrossOriginResourcePolicy.SAME_ORIGIN);
        return writer;
    }
}
