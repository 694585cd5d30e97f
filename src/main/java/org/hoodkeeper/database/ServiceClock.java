package org.hoodkeeper.database;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.atomic.AtomicReference;

/**
 * The service's time, to the microsecond as the database keeps it: the machine's time plus the offset that
 * {@code service_now()} adds too. The offset is zero except in a {@link Rehearsal}. Supplies "now" as an argument only;
 * the time of a record is the database's.
 */
public final class ServiceClock extends Clock {

    private final Clock machine = Clock.systemUTC();
    private final AtomicReference<Duration> offset;

    ServiceClock(Duration offset) {
        this.offset = new AtomicReference<>(offset);
    }

    void shiftTo(Duration newOffset) {
        offset.set(newOffset);
    }

    @Override
    public Instant instant() {
        return machine.instant().plus(offset.get()).truncatedTo(ChronoUnit.MICROS);
    }

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        return new InZone(this, zone);
    }

    private static final class InZone extends Clock {

        private final ServiceClock time;
        private final ZoneId zone;

        InZone(ServiceClock time, ZoneId zone) {
            this.time = time;
            this.zone = zone;
        }

        @Override
        public Instant instant() {
            return time.instant();
        }

        @Override
        public ZoneId getZone() {
            return zone;
        }

        @Override
        public Clock withZone(ZoneId other) {
            return new InZone(time, other);
        }
    }
}
