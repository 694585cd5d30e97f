package org.hoodkeeper.access.edge;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Optional;
import org.hoodkeeper.access.CommandTokens;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.programme.Site;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.web.filter.OncePerRequestFilter;

/** Reads {@code Authorization: Bearer …}. */
class TokenFilter extends OncePerRequestFilter {

    private static final String SCHEME = "Bearer ";

    private final CommandTokens tokens;
    private final AuthenticationEntryPoint refusal;

    TokenFilter(CommandTokens tokens, AuthenticationEntryPoint refusal) {
        this.tokens = tokens;
        this.refusal = refusal;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        String token = token(request);
        if (token == null) {
            chain.doFilter(request, response);
            return;
        }
        Optional<CommandTokens.Opened> opened = open(token, request);
        if (opened.isEmpty()) {
            refusal.commence(request, response, new BadCredentialsException("token not accepted"));
            return;
        }
        SecurityContext context = SecurityContextHolder.createEmptyContext();
        context.setAuthentication(new TokenAuthentication(opened.get()));
        SecurityContextHolder.setContext(context);
        chain.doFilter(request, response);
    }

    private Optional<CommandTokens.Opened> open(String token, HttpServletRequest request) {
        Optional<Site> site = tokens.siteNamedIn(token);
        if (site.isEmpty()) {
            return Optional.empty();
        }
        Optional<CommandTokens.Opened> opened = tokens.open(site.get(), token);
        if (opened.isEmpty()) {
            SiteBinding.run(site.get().id(), () -> tokens.noteRefusal(site.get(), request.getRemoteAddr()));
        } else if (opened.get().isNews()) {
            SiteBinding.run(site.get().id(), () -> tokens.noteUse(opened.get(), request.getRemoteAddr()));
        }
        return opened;
    }

    private static @Nullable String token(HttpServletRequest request) {
        String header = request.getHeader(HttpHeaders.AUTHORIZATION);
        return header != null && header.regionMatches(true, 0, SCHEME, 0, SCHEME.length())
                ? header.substring(SCHEME.length()).strip()
                : null;
    }
}
