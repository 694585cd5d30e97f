package org.hoodkeeper.web;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Turns away a body that says itself that it is too large, before anything reads it. Ahead of the access rules: they would look
 * for the form's token inside the body first, and not find it there.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 20)
class UploadLimit extends OncePerRequestFilter {

    /** What a form adds around its file. */
    private static final long AROUND = 64 * 1024;

    private final long largest;

    UploadLimit(@Value("${hoodkeeper.import.megabytes:1024}") long megabytes) {
        this.largest = megabytes * 1024 * 1024 + AROUND;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        if (request.getContentLengthLong() > largest) {
            response.sendError(HttpServletResponse.SC_REQUEST_ENTITY_TOO_LARGE);
            return;
        }
        chain.doFilter(request, response);
    }
}
