package org.hoodkeeper.database;

import java.net.InetAddress;
import java.net.UnknownHostException;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.core.env.Environment;

/**
 * Keeps passwords and medical outcomes from crossing a network in the clear: any address but loopback needs TLS here, or
 * a proxy in front that brings it and is declared.
 */
@Order(Ordered.HIGHEST_PRECEDENCE + 10)
class BindAddress implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    @Override
    public void initialize(ConfigurableApplicationContext context) {
        Environment environment = context.getEnvironment();
        String address = environment.getProperty("server.address", "");
        if (!isLoopback(address) && !hasTls(environment) && !hasTrustedProxy(environment)) {
            throw new CannotStart("server.address=" + address + " is open to the network, and there is no TLS. Set"
                    + " server.ssl.*, or hoodkeeper.trusted-proxy=true when a proxy in front brings TLS, or"
                    + " server.address=127.0.0.1.");
        }
    }

    static boolean hasTls(Environment environment) {
        return environment.getProperty("server.ssl.enabled", Boolean.class, true)
                && (isSet(environment, "server.ssl.bundle")
                        || isSet(environment, "server.ssl.key-store")
                        || isSet(environment, "server.ssl.certificate"));
    }

    private static boolean hasTrustedProxy(Environment environment) {
        return environment.getProperty("hoodkeeper.trusted-proxy", Boolean.class, false)
                || !environment
                        .getProperty("server.forward-headers-strategy", "none")
                        .equalsIgnoreCase("none");
    }

    private static boolean isSet(Environment environment, String name) {
        return !environment.getProperty(name, "").isBlank();
    }

    /** An empty address means every interface. */
    private static boolean isLoopback(String address) {
        if (address.isBlank()) {
            return false;
        }
        try {
            return InetAddress.getByName(address).isLoopbackAddress();
        } catch (UnknownHostException e) {
            throw new CannotStart("server.address=" + address + " is no address of this machine.");
        }
    }
}
