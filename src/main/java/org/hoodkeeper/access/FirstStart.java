package org.hoodkeeper.access;

import java.io.PrintStream;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/**
 * On a database without any account, prints where to begin. On the console and not in the log: logs are collected,
 * forwarded and kept, and this line is a key for an hour.
 */
@Component
class FirstStart {

    private final Accounts accounts;
    private final FirstAdministrator first;
    private final Environment environment;
    private final PrintStream console;

    FirstStart(Accounts accounts, FirstAdministrator first, Environment environment) {
        this.accounts = accounts;
        this.first = first;
        this.environment = environment;
        this.console = System.out;
    }

    /** After everything that runs at the start, so that a demo has laid its accounts by now. */
    @EventListener(ApplicationReadyEvent.class)
    void begin() {
        if (accounts.none()) {
            console.println(invitation(first.makeLink()));
        }
    }

    private String invitation(String secret) {
        String port = environment.getProperty("local.server.port", "8080");
        String scheme = environment.getProperty("server.ssl.enabled", Boolean.class, false) ? "https" : "http";
        return """

                There is no account yet. Make the first administrator and the first site here:
                  %s://localhost:%s/first-administrator/%s
                The link works once, for 60 minutes; behind a proxy put its address in place of localhost.
                A new start prints a new one.
                """.formatted(scheme, port, secret);
    }
}
