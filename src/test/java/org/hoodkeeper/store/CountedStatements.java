package org.hoodkeeper.store;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.sql.Connection;
import java.util.concurrent.atomic.AtomicInteger;
import javax.sql.DataSource;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.jdbc.datasource.DelegatingDataSource;

/** Counts the statements that the service prepares. */
@TestComponent
public class CountedStatements implements BeanPostProcessor {

    private final AtomicInteger prepared = new AtomicInteger();

    public int during(Runnable work) {
        int before = prepared.get();
        work.run();
        return prepared.get() - before;
    }

    @Override
    public Object postProcessAfterInitialization(Object bean, String name) {
        return bean instanceof DataSource source ? new Counting(source) : bean;
    }

    private final class Counting extends DelegatingDataSource {

        private Counting(DataSource source) {
            super(source);
        }

        @Override
        public Connection getConnection() throws java.sql.SQLException {
            Connection connection = super.getConnection();
            return (Connection) Proxy.newProxyInstance(
                    Connection.class.getClassLoader(),
                    new Class<?>[] {Connection.class},
                    (proxy, method, arguments) -> {
                        if (method.getName().equals("prepareStatement")) {
                            prepared.incrementAndGet();
                        }
                        try {
                            return method.invoke(connection, arguments);
                        } catch (InvocationTargetException thrown) {
                            throw thrown.getCause();
                        }
                    });
        }
    }
}
