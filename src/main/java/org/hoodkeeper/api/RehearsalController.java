package org.hoodkeeper.api;

import java.time.Clock;
import java.time.Instant;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.database.Rehearsal;
import org.hoodkeeper.kernel.Role;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;

/** Moves the clock of a rehearsal. */
@RestController
class RehearsalController {

    private final Rehearsal rehearsal;
    private final Clock clock;

    RehearsalController(Rehearsal rehearsal, Clock clock) {
        this.rehearsal = rehearsal;
        this.clock = clock;
    }

    @PostMapping("/api/rehearsal/clock")
    @Allowed({Role.OFFICER, Role.ADMINISTRATOR})
    ServiceTime move(@RequestBody ClockCommand command) {
        rehearsal.moveTo(command.to());
        return new ServiceTime(clock.instant());
    }

    record ServiceTime(Instant serviceTime) {}
}
