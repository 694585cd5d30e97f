package org.hoodkeeper.database;

import org.jspecify.annotations.Nullable;
import org.springframework.boot.SpringBootExceptionReporter;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;

/** Prints the one line of a {@link CannotStart} in place of a stack trace. */
@Order(Ordered.HIGHEST_PRECEDENCE)
class CannotStartReporter implements SpringBootExceptionReporter {

    /** The constructor that Spring Boot looks for; the context is null when it was never made. */
    CannotStartReporter(@Nullable ConfigurableApplicationContext context) {}

    @Override
    public boolean reportException(Throwable failure) {
        for (Throwable cause = failure; cause != null; cause = cause.getCause()) {
            if (cause instanceof CannotStart cannotStart) {
                System.err.println("Hoodkeeper did not start: " + cannotStart.getMessage());
                return true;
            }
        }
        return false;
    }
}
