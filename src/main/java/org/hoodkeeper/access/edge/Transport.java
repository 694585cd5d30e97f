package org.hoodkeeper.access.edge;

import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/**
 * Whether browsers reach the service by TLS: its own, or that of a proxy which the operator has declared. Only without
 * either, which is the demo on this machine's own address, do cookies go without {@code Secure}.
 */
@Component
class Transport {

    private final boolean secure;

    Transport(Environment environment) {
        this.secure = environment.getProperty("hoodkeeper.trusted-proxy", Boolean.class, false)
                || environment.containsProperty("server.ssl.bundle")
                || environment.containsProperty("server.ssl.key-store")
                || environment.containsProperty("server.ssl.certificate");
    }

    boolean isSecure() {
        return secure;
    }

    /** A cookie's name, bound to this host and to TLS where there is TLS. */
    String cookieName(String name) {
        return secure ? "__Host-" + name : name;
    }
}
