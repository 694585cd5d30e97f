package org.hoodkeeper.access;

import java.util.Map;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.crypto.argon2.Argon2PasswordEncoder;
import org.springframework.security.crypto.password.DelegatingPasswordEncoder;
import org.springframework.security.crypto.password.PasswordEncoder;

@Configuration(proxyBeanMethods = false)
class PasswordEncoding {

    private static final String METHOD = "argon2id";
    private static final int SALT_BYTES = 16;
    private static final int HASH_BYTES = 32;

    /** argon2id with m = 19 MiB, t = 2, p = 1: the OWASP cheat sheet on password storage. */
    private static final int PARALLEL = 1;

    private static final int MEMORY_KIB = 19 * 1024;
    private static final int PASSES = 2;

    /** The method stands in front of each hash, so that a stronger one can follow and old ones are renewed at sign-in. */
    @Bean
    PasswordEncoder passwordEncoder() {
        var argon2id = new Argon2PasswordEncoder(SALT_BYTES, HASH_BYTES, PARALLEL, MEMORY_KIB, PASSES);
        return new HashingLane(new DelegatingPasswordEncoder(METHOD, Map.of(METHOD, argon2id)));
    }
}
