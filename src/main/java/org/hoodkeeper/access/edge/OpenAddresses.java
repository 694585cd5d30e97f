package org.hoodkeeper.access.edge;

/** The addresses that need no sign-in; all others do. A page in here also says {@code @Public}. */
final class OpenAddresses {

    /** Files that are the same for everybody and may be kept by a browser. */
    static final String[] FILES = {"/css/**", "/img/**", "/js/**", "/font/**", "/favicon.ico", "/manifest.webmanifest"};

    static final String[] PAGES = {
        "/sign-in", "/sign-in/refused", "/first-administrator/*", "/choose-password/*", "/error"
    };

    /** Whether the service lives; says no more to those who have not signed in. */
    static final String[] HEALTH = {"/actuator/health", "/actuator/health/liveness", "/actuator/health/readiness"};

    private OpenAddresses() {}
}
