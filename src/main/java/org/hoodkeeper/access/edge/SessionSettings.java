package org.hoodkeeper.access.edge;

import java.time.Duration;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.session.config.SessionRepositoryCustomizer;
import org.springframework.session.jdbc.JdbcIndexedSessionRepository;
import org.springframework.session.web.http.CookieSerializer;
import org.springframework.session.web.http.DefaultCookieSerializer;

/** The session's cookie and its two limits. */
@Configuration(proxyBeanMethods = false)
class SessionSettings {

    static final String COOKIE = "hoodkeeper-session";

    /** Lax, not Strict: a label opened from the phone's own camera has to arrive signed in. */
    @Bean
    CookieSerializer sessionCookie(Transport transport) {
        DefaultCookieSerializer cookie = new DefaultCookieSerializer();
        cookie.setCookieName(transport.cookieName(COOKIE));
        cookie.setUseSecureCookie(transport.isSecure());
        cookie.setUseHttpOnlyCookie(true);
        cookie.setSameSite("Lax");
        cookie.setCookiePath("/");
        return cookie;
    }

    @Bean
    SessionRepositoryCustomizer<JdbcIndexedSessionRepository> sessionIdleLimit(
            @Value("${hoodkeeper.session.idle:PT1H}") Duration idle) {
        return sessions -> sessions.setDefaultMaxInactiveInterval(idle);
    }

    /** Twelve hours: the longest shift with its ends. */
    @Bean
    SessionLimit sessionLimit(@Value("${hoodkeeper.session.longest:PT12H}") Duration longest) {
        return new SessionLimit(longest);
    }
}
