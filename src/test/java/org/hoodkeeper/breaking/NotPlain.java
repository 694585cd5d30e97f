package org.hoodkeeper.breaking;

import java.time.Clock;
import java.time.Instant;
import java.util.Locale;
import org.hoodkeeper.people.Worker;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;

/** Breaks every architecture rule, so that each is seen to fail. Never part of a context. */
@Controller
@TestComponent
public class NotPlain {

    record Line(String words) {}

    private final JdbcTemplate jdbc;
    private final Clock clock;
    private final Locale locale;

    NotPlain(JdbcTemplate jdbc, Clock clock, Locale locale) {
        this.jdbc = jdbc;
        this.clock = clock;
        this.locale = locale;
    }

    @GetMapping("/breaking")
    public String take(Worker worker) {
        return worker.number() + jdbc + clock + locale + Instant.now();
    }
}
