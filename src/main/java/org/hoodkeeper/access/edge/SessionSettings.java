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

    /**
     * A look at a page moves the session's time at most once a minute: an update that changes nothing waits for no disk. A session
     * may so end up to a minute before its idle limit, never after it.
     */
    private static final String UPDATE = """
            update %TABLE_NAME% s
            set session_id = n.session_id, last_access_time = n.last_access_time, max_inactive_interval = n.max_inactive_interval,
                expiry_time = n.expiry_time, principal_name = n.principal_name
            from (values (?::text, ?::bigint, ?::int, ?::bigint, ?::text, ?::text))
                as n (session_id, last_access_time, max_inactive_interval, expiry_time, principal_name, primary_id)
            where s.primary_id = n.primary_id
              and (n.last_access_time >= s.last_access_time + 60000
                   or s.session_id <> n.session_id
                   or s.max_inactive_interval <> n.max_inactive_interval
                   or s.principal_name is distinct from n.principal_name)""";

    @Bean
    SessionRepositoryCustomizer<JdbcIndexedSessionRepository> sessionsKept(
            @Value("${hoodkeeper.session.idle:PT1H}") Duration idle) {
        return sessions -> {
            sessions.setDefaultMaxInactiveInterval(idle);
            sessions.setUpdateSessionQuery(UPDATE);
        };
    }

    /** Twelve hours: the longest shift with its ends. */
    @Bean
    SessionLimit sessionLimit(@Value("${hoodkeeper.session.longest:PT12H}") Duration longest) {
        return new SessionLimit(longest);
    }
}
