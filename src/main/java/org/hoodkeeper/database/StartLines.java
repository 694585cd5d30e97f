package org.hoodkeeper.database;

import java.util.ArrayList;
import java.util.List;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.event.EventListener;
import org.springframework.core.env.Environment;

/** Tells the person at the console where the service is and what they need for the first step. */
final class StartLines {

    private final Environment environment;
    private final Rehearsal rehearsal;
    private final ServiceClock clock;
    private final Database database;
    private final ObjectProvider<StartNotice> notices;

    StartLines(
            Environment environment,
            Rehearsal rehearsal,
            ServiceClock clock,
            Database database,
            ObjectProvider<StartNotice> notices) {
        this.environment = environment;
        this.rehearsal = rehearsal;
        this.clock = clock;
        this.database = database;
        this.notices = notices;
    }

    @EventListener
    void print(ApplicationReadyEvent ready) {
        if (ready.getApplicationContext() instanceof WebServerApplicationContext web && web.getWebServer() != null) {
            lines(web.getWebServer().getPort()).forEach(System.out::println);
        }
    }

    List<String> lines(int port) {
        String address = address(port);
        List<String> lines = new ArrayList<>();
        lines.add("");
        lines.add("Hoodkeeper answers at " + address + "/");
        if (rehearsal.isOn()) {
            lines.add("Rehearsal: service time is " + clock.instant() + "; ops/clock moves it forward.");
        }
        if (database.users() == Database.Users.ONE) {
            lines.add("One database user does everything: grants and row security do not bind the service.");
        }
        notices.orderedStream().forEach(notice -> lines.addAll(notice.lines(address)));
        lines.add("");
        return lines;
    }

    private String address(int port) {
        String host = environment.getProperty("server.address", "");
        String shown = host.isBlank() || host.equals("0.0.0.0") || host.equals("::") ? "localhost" : host;
        return (BindAddress.hasTls(environment) ? "https://" : "http://")
                + (shown.contains(":") ? "[" + shown + "]" : shown) + ":" + port;
    }
}
