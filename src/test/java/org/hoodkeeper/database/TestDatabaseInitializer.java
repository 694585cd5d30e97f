package org.hoodkeeper.database;

import java.util.Map;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.core.env.MapPropertySource;

/**
 * Gives each test context the shared test database, before the service would start one of its own. With the property
 * {@code hoodkeeper.clock} the context is a rehearsal; its time is what {@link TestClock} says all the same.
 */
@Order(Ordered.HIGHEST_PRECEDENCE)
class TestDatabaseInitializer implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    @Override
    public void initialize(ConfigurableApplicationContext context) {
        if (!context.getEnvironment().getProperty("spring.datasource.url", "").isBlank()) {
            // the test has named a database of its own
            return;
        }
        // tests seal when they say so: nothing runs behind their backs
        context.getEnvironment()
                .getPropertySources()
                .addLast(new MapPropertySource("tests", Map.of("hoodkeeper.sealing", "off")));
        if (TestDatabase.isPartitioned()) {
            context.getEnvironment()
                    .getPropertySources()
                    .addFirst(new MapPropertySource(
                            "partitioned",
                            Map.of("spring.flyway.locations", "classpath:db/migration,classpath:partitioned")));
        }
        DatabaseInitializer.supply(context, TestDatabase.shared(), StartTime.from(context.getEnvironment()));
        context.getBeanFactory().addBeanPostProcessor(new BeanPostProcessor() {
            @Override
            public Object postProcessAfterInitialization(Object bean, String name) {
                if (bean instanceof ServiceClock clock) {
                    TestClock.follow(clock);
                }
                return bean;
            }
        });
    }
}
