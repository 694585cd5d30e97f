package org.hoodkeeper.access.edge;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.servlet.http.HttpSession;
import java.io.IOException;
import java.time.Duration;
import org.springframework.web.filter.OncePerRequestFilter;

/** Ends a session after its longest time, however busy it is. */
class SessionLimit extends OncePerRequestFilter {

    private final Duration longest;

    SessionLimit(Duration longest) {
        this.longest = longest;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        HttpSession session = request.getSession(false);
        // the access now under way is the session's last one, so the session tells its own age
        if (session != null && session.getLastAccessedTime() - session.getCreationTime() > longest.toMillis()) {
            session.invalidate();
        }
        chain.doFilter(request, response);
    }
}
