package org.hoodkeeper.database;

import java.nio.file.Path;
import java.util.Map;
import org.springframework.beans.factory.config.ConfigurableListableBeanFactory;
import org.springframework.beans.factory.support.DefaultListableBeanFactory;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.env.ConfigurableEnvironment;
import org.springframework.core.env.MapPropertySource;

/**
 * Gets the database ready before anything else is made: starts the embedded one when no {@code spring.datasource.url} is
 * set, else looks at the given one. So early, a refusal is one line and nothing has to be undone.
 */
class DatabaseInitializer implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    private static final String BEAN = "database";

    @Override
    public void initialize(ConfigurableApplicationContext context) {
        ConfigurableListableBeanFactory beans = context.getBeanFactory();
        if (beans.containsSingleton(BEAN)) {
            // whoever made this context has brought a database
            return;
        }
        ConfigurableEnvironment environment = context.getEnvironment();
        StartTime startTime = StartTime.from(environment);
        boolean external = !environment.getProperty("spring.datasource.url", "").isBlank();
        Database database = external ? external(environment, startTime) : embedded(context, startTime);
        supply(context, database, startTime);
    }

    static void supply(ConfigurableApplicationContext context, Database database, StartTime startTime) {
        database.publish(context.getEnvironment());
        context.getBeanFactory().registerSingleton(BEAN, database);
        context.getBeanFactory().registerSingleton("startTime", startTime);
    }

    private static Database external(ConfigurableEnvironment environment, StartTime startTime) {
        if (startTime.isRehearsal()) {
            throw new CannotStart("HOODKEEPER_CLOCK is set, but a rehearsal needs the embedded database, and"
                    + " spring.datasource.url names another. Unset one of the two.");
        }
        Database database = ExternalDatabase.from(environment);
        startTime.refuseGoingBack(new ClockTable(database.owner()));
        return database;
    }

    private static Database embedded(ConfigurableApplicationContext context, StartTime startTime) {
        ConfigurableEnvironment environment = context.getEnvironment();
        // unless it is said otherwise, the database that the service brings along comes with the demo
        environment
                .getPropertySources()
                .addLast(new MapPropertySource("embedded database", Map.of("hoodkeeper.demo", "true")));
        EmbeddedDatabase embedded = EmbeddedDatabase.start(
                Path.of(environment.getProperty("hoodkeeper.data-dir", "data")),
                environment.getProperty("hoodkeeper.database-port", Integer.class, 0),
                Map.of());
        try {
            startTime.refuseGoingBack(new ClockTable(embedded.database().owner()));
        } catch (CannotStart e) {
            embedded.destroy();
            throw e;
        }
        // what is registered first is destroyed last: the pool and everything that writes ends before the database
        ((DefaultListableBeanFactory) context.getBeanFactory()).registerDisposableBean("embeddedDatabase", embedded);
        return embedded.database();
    }
}
