package org.hoodkeeper.access.edge;

import jakarta.servlet.DispatcherType;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Set;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.CommandTokens;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.SignIn;
import org.hoodkeeper.kernel.AccountId;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.http.SessionCreationPolicy;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.access.AccessDeniedHandler;
import org.springframework.security.web.access.AccessDeniedHandlerImpl;
import org.springframework.security.web.authentication.AuthenticationSuccessHandler;
import org.springframework.security.web.authentication.ForwardAuthenticationFailureHandler;
import org.springframework.security.web.authentication.SavedRequestAwareAuthenticationSuccessHandler;
import org.springframework.security.web.authentication.www.BasicAuthenticationFilter;
import org.springframework.security.web.context.SecurityContextHolderFilter;
import org.springframework.security.web.csrf.CsrfException;
import org.springframework.security.web.savedrequest.NullRequestCache;

/** Two ways in: commands under {@code /api}, without any session, and people's pages, with one. */
@Configuration(proxyBeanMethods = false)
class Edge {

    private static final Set<String> OTHER_SITES = Set.of("cross-site", "same-site");

    /**
     * A session's cookie is worth nothing here, and no challenge makes a browser keep a password, so a foreign page has
     * nothing to ride on and no CSRF token is needed. A browser that says the request comes from another site is refused
     * besides.
     */
    @Bean
    @Order(1)
    SecurityFilterChain commands(HttpSecurity http, CommandTokens tokens, DeviceCookie device) throws Exception {
        AuthenticationEntryPoint refusal = Edge::refuseCommand;
        return http.securityMatcher("/api/**")
                .sessionManagement(session -> session.sessionCreationPolicy(SessionCreationPolicy.STATELESS))
                .requestCache(cache -> cache.requestCache(new NullRequestCache()))
                .csrf(AbstractHttpConfigurer::disable)
                .headers(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .anonymous(anonymous -> {})
                .httpBasic(basic -> basic.authenticationEntryPoint(refusal).authenticationDetailsSource(device::place))
                .addFilterBefore(new TokenFilter(tokens, refusal), BasicAuthenticationFilter.class)
                .exceptionHandling(handling -> handling.authenticationEntryPoint(refusal))
                .authorizeHttpRequests(
                        requests -> requests.dispatcherTypeMatchers(DispatcherType.FORWARD, DispatcherType.ERROR)
                                .permitAll()
                                .requestMatchers(Edge::comesFromAnotherSite)
                                .denyAll()
                                .anyRequest()
                                .authenticated())
                .build();
    }

    @Bean
    @Order(2)
    SecurityFilterChain pages(
            HttpSecurity http, SessionLimit limit, SignIn signIn, DeviceCookie device, AuditTrail audit)
            throws Exception {
        return http.headers(AbstractHttpConfigurer::disable)
                .httpBasic(AbstractHttpConfigurer::disable)
                .addFilterBefore(limit, SecurityContextHolderFilter.class)
                .formLogin(form -> form.loginPage("/sign-in")
                        .loginProcessingUrl("/sign-in")
                        .usernameParameter("login")
                        .passwordParameter("password")
                        .authenticationDetailsSource(device::place)
                        .successHandler(welcome(signIn, device))
                        .failureHandler(new ForwardAuthenticationFailureHandler("/sign-in/refused")))
                .logout(logout -> logout.logoutUrl("/sign-out").logoutSuccessUrl("/sign-in?signedOut"))
                .sessionManagement(session -> session.sessionFixation(fixation -> fixation.changeSessionId()))
                .exceptionHandling(handling -> handling.accessDeniedHandler(staleForms(audit)))
                .authorizeHttpRequests(
                        requests -> requests.dispatcherTypeMatchers(DispatcherType.FORWARD, DispatcherType.ERROR)
                                .permitAll()
                                .requestMatchers(OpenAddresses.FILES)
                                .permitAll()
                                .requestMatchers(OpenAddresses.PAGES)
                                .permitAll()
                                .requestMatchers(OpenAddresses.HEALTH)
                                .permitAll()
                                .requestMatchers("/actuator/**")
                                .denyAll()
                                .anyRequest()
                                .authenticated())
                .build();
    }

    /** The filter belongs to the pages' chain alone. */
    @Bean
    FilterRegistrationBean<SessionLimit> sessionLimitOnlyInChain(SessionLimit limit) {
        FilterRegistrationBean<SessionLimit> registration = new FilterRegistrationBean<>(limit);
        registration.setEnabled(false);
        return registration;
    }

    private static AuthenticationSuccessHandler welcome(SignIn signIn, DeviceCookie device) {
        AuthenticationSuccessHandler onwards = new SavedRequestAwareAuthenticationSuccessHandler();
        return (request, response, authentication) -> {
            if (authentication.getPrincipal() instanceof KnownAccount account) {
                device.write(signIn.rememberDevice(account, device.read(request)), response);
            }
            onwards.onAuthenticationSuccess(request, response, authentication);
        };
    }

    /** A form that outlived its session leads to the sign-in page, which says so; any other refusal stays one. */
    private static AccessDeniedHandler staleForms(AuditTrail audit) {
        AccessDeniedHandler refusal = new AccessDeniedHandlerImpl();
        return (request, response, denied) -> {
            // asked of the context: the request itself does not know its person yet where the token is checked
            if (denied instanceof CsrfException
                    && SecurityContextHolder.getContext().getAuthentication() == null) {
                response.sendRedirect(request.getContextPath() + "/sign-in?expired");
            } else {
                audit.record(AuditEntry.of("access.otherPage").by(caller()).from(request.getRemoteAddr()));
                refusal.handle(request, response, denied);
            }
        };
    }

    private static @Nullable AccountId caller() {
        Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
        return authentication != null && authentication.getPrincipal() instanceof KnownAccount account
                ? account.id()
                : null;
    }

    /** Names the token scheme only: at a Basic challenge a browser would ask for a password and keep it. */
    private static void refuseCommand(HttpServletRequest request, HttpServletResponse response, Exception refused)
            throws java.io.IOException {
        response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer realm=\"Hoodkeeper\"");
        response.sendError(HttpServletResponse.SC_UNAUTHORIZED);
    }

    private static boolean comesFromAnotherSite(HttpServletRequest request) {
        String from = request.getHeader("Sec-Fetch-Site");
        return from != null && OTHER_SITES.contains(from);
    }
}
