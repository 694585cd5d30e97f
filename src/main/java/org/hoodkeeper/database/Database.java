package org.hoodkeeper.database;

import java.util.LinkedHashMap;
import java.util.Map;
import org.springframework.core.env.ConfigurableEnvironment;
import org.springframework.core.env.MapPropertySource;

/**
 * Which PostgreSQL the service runs on and who signs in there.
 *
 * @param owner runs the migrations and owns every table
 * @param app the service's own role: neither owner nor superuser, unless {@code users} is {@link Users#ONE}
 * @param verifierRole the name of the role that may only read
 */
record Database(Kind kind, Users users, Login owner, Login app, String verifierRole, String eraserRole) {

    static final String OWNER = "hoodkeeper_owner";
    static final String APP = "hoodkeeper_app";
    static final String VERIFIER = "hoodkeeper_verifier";

    /** Nobody signs in with it: it owns the one function that erases records. */
    static final String ERASER = "hoodkeeper_eraser";

    enum Kind {
        /** Started and stopped by the service itself, its data under the data folder. */
        EMBEDDED,
        /** Given by {@code spring.datasource.url}. */
        EXTERNAL
    }

    enum Users {
        /** Owner and service are two roles: the service cannot change what the ledger holds. */
        SEPARATE,
        /** One role does both, accepted by the operator: grants bind nobody. */
        ONE
    }

    /** Tells Spring's pool, JPA and Flyway which role each of them uses. */
    void publish(ConfigurableEnvironment environment) {
        Map<String, Object> properties = new LinkedHashMap<>();
        properties.put("spring.datasource.url", app.url());
        properties.put("spring.datasource.username", app.user());
        properties.put("spring.datasource.password", app.password());
        properties.put("spring.flyway.url", owner.url());
        properties.put("spring.flyway.user", owner.user());
        properties.put("spring.flyway.password", owner.password());
        properties.put("spring.flyway.placeholders.appRole", app.user());
        properties.put("spring.flyway.placeholders.verifierRole", verifierRole);
        properties.put("spring.flyway.placeholders.eraserRole", eraserRole);
        environment.getPropertySources().addFirst(new MapPropertySource("database roles", properties));
    }
}
