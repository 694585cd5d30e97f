package org.hoodkeeper.access;

import java.sql.Array;
import java.sql.Connection;
import java.sql.Timestamp;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Chain;
import org.hoodkeeper.ledger.Digest;
import org.hoodkeeper.ledger.RunningWriters;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * The chain of the audit trail: one for each site, one for what belongs to no site. Events are sealed in batches; a seal names
 * its events and their hashes, and covers all time since the seal before.
 */
@Component
public class AuditChain {

    static final byte[] BEGINNING = new Digest("audit chain 1").value();

    private static final int AT_ONCE = 1_000;
    private static final int HASH = 32;

    private final JdbcTemplate jdbc;

    public AuditChain(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /** Seals what can be sealed. @param site none for the service's own chain @return how many events were sealed */
    @Transactional
    public int seal(@Nullable SiteId site) {
        Trail trail = Trail.of(site);
        Head head = lock(trail);
        if (head == null) {
            return 0;
        }
        // asked once, after the head: the list of writers is kept for the rest of the transaction
        Instant bound = RunningWriters.oldest(jdbc);
        List<Event> events = bound.isAfter(head.until()) ? batch(trail, head.until(), bound) : List.of();
        if (events.isEmpty()) {
            return 0;
        }
        Instant until = events.get(events.size() - 1).at().plus(1, ChronoUnit.MICROS);
        long position = head.position() + 1;
        List<byte[]> hashes = events.stream().map(event -> event.hash(site)).toList();
        List<UUID> ids = events.stream().map(Event::id).toList();
        byte[] hash = next(head.hash(), position, until, ids, hashes);
        byte[] together = joined(hashes);
        jdbc.update(connection -> {
            var insert =
                    connection.prepareStatement("insert into " + trail.table("audit_seal") + " (" + trail.siteColumn()
                            + "position, until, events, hashes, hash) values (" + trail.siteValue() + "?, ?, ?, ?, ?)");
            insert.setLong(1, position);
            insert.setTimestamp(2, Timestamp.from(until));
            insert.setArray(3, array(connection, ids));
            insert.setBytes(4, together);
            insert.setBytes(5, hash);
            return insert;
        });
        jdbc.update(
                "update " + trail.table("audit_head") + " set position = ?, until = ?, hash = ? where " + trail.where(),
                position,
                Timestamp.from(until),
                hash);
        return events.size();
    }

    /**
     * Reads every event and every seal.
     *
     * @param site none for the service's own chain
     * @return codes as in {@link Chain.Broken}, and {@code event.changed}, {@code event.missing}, {@code event.inserted}
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public Chain.Checked check(@Nullable SiteId site) {
        Trail trail = Trail.of(site);
        List<Chain.Broken> broken = new ArrayList<>();
        Walk walk = new Walk();
        for (Seal seal : seals(trail)) {
            for (; walk.position + 1 < seal.position(); walk.position++) {
                broken.add(new Chain.Broken(walk.position + 1, "seal.missing", null));
            }
            List<byte[]> hashes = split(seal.hashes());
            if (!Arrays.equals(seal.hash(), next(walk.hash, seal.position(), seal.until(), seal.events(), hashes))) {
                broken.add(new Chain.Broken(seal.position(), "seal.changed", null));
            }
            compare(site, trail, walk.until, seal, hashes, broken);
            walk.events += seal.events().size();
            walk.position = seal.position();
            walk.until = seal.until();
            walk.hash = seal.hash();
        }
        heads(trail).stream()
                .filter(head -> head.position() != walk.position || !Arrays.equals(head.hash(), walk.hash))
                .forEach(head -> broken.add(new Chain.Broken(head.position(), "head.differs", null)));
        Long unsealed = jdbc.queryForObject(
                "select count(*) from " + trail.table("audit_event") + " where " + trail.where()
                        + " and recorded_at >= ?",
                Long.class,
                Timestamp.from(walk.until));
        return new Chain.Checked(
                walk.events,
                unsealed == null ? 0 : unsealed,
                walk.position,
                HexFormat.of().formatHex(walk.hash),
                broken);
    }

    /** One seal, without a check. @param position 0 is the beginning */
    @Transactional(readOnly = true)
    public Chain.Seal seal(@Nullable SiteId site, long position) {
        if (position == 0) {
            return new Chain.Seal(0, HexFormat.of().formatHex(BEGINNING));
        }
        Trail trail = Trail.of(site);
        List<byte[]> found = jdbc.query(
                "select hash from " + trail.table("audit_seal") + " where " + trail.where() + " and position = ?",
                (row, n) -> row.getBytes(1),
                position);
        return new Chain.Seal(position, found.isEmpty() ? null : HexFormat.of().formatHex(found.get(0)));
    }

    /** The last seal, without a check. */
    @Transactional(readOnly = true)
    public Chain.Seal head(@Nullable SiteId site) {
        return heads(Trail.of(site)).stream()
                .findFirst()
                .map(head -> new Chain.Seal(head.position(), HexFormat.of().formatHex(head.hash())))
                .orElseGet(() -> seal(site, 0));
    }

    private void compare(
            @Nullable SiteId site,
            Trail trail,
            Instant from,
            Seal seal,
            List<byte[]> hashes,
            List<Chain.Broken> broken) {
        Map<UUID, byte[]> sealed = new LinkedHashMap<>();
        for (int i = 0; i < seal.events().size(); i++) {
            sealed.put(seal.events().get(i), hashes.get(i));
        }
        for (Event event : events(trail, from, seal.until(), Integer.MAX_VALUE)) {
            byte[] hash = sealed.remove(event.id());
            if (hash == null) {
                broken.add(new Chain.Broken(seal.position(), "event.inserted", event.id()));
            } else if (!Arrays.equals(hash, event.hash(site))) {
                broken.add(new Chain.Broken(seal.position(), "event.changed", event.id()));
            }
        }
        sealed.keySet().forEach(id -> broken.add(new Chain.Broken(seal.position(), "event.missing", id)));
    }

    private @Nullable Head lock(Trail trail) {
        String select = "select position, until, hash from " + trail.table("audit_head") + " where " + trail.where()
                + " for update skip locked";
        List<Head> heads = jdbc.query(select, (row, n) -> head(row));
        if (heads.isEmpty()) {
            jdbc.update(
                    "insert into " + trail.table("audit_head") + " (" + trail.siteColumn()
                            + "position, until, hash) values (" + trail.siteValue() + "0, ?, ?) on conflict do nothing",
                    Timestamp.from(Instant.EPOCH),
                    BEGINNING);
            heads = jdbc.query(select, (row, n) -> head(row));
        }
        return heads.isEmpty() ? null : heads.get(0);
    }

    private List<Head> heads(Trail trail) {
        return jdbc.query(
                "select position, until, hash from " + trail.table("audit_head") + " where " + trail.where(),
                (row, n) -> head(row));
    }

    private static Head head(java.sql.ResultSet row) throws java.sql.SQLException {
        return new Head(row.getLong(1), row.getTimestamp(2).toInstant(), row.getBytes(3));
    }

    private List<Seal> seals(Trail trail) {
        return jdbc.query(
                "select position, until, events, hashes, hash from " + trail.table("audit_seal") + " where "
                        + trail.where() + " order by position",
                (row, n) -> new Seal(
                        row.getLong(1),
                        row.getTimestamp(2).toInstant(),
                        List.of((UUID[]) row.getArray(3).getArray()),
                        row.getBytes(4),
                        row.getBytes(5)));
    }

    /** About so many, never a part of those of one instant. */
    private List<Event> batch(Trail trail, Instant from, Instant bound) {
        List<Event> events = events(trail, from, bound, AT_ONCE);
        if (events.size() < AT_ONCE) {
            return events;
        }
        return events(trail, from, events.get(events.size() - 1).at().plus(1, ChronoUnit.MICROS), Integer.MAX_VALUE);
    }

    private List<Event> events(Trail trail, Instant from, Instant until, int most) {
        return jdbc.query(
                "select event_id, recorded_at, kind, actor, subject, source, detail from " + trail.table("audit_event")
                        + " where " + trail.where() + " and recorded_at >= ? and recorded_at < ?"
                        + " order by recorded_at, event_id limit ?",
                (row, n) -> new Event(
                        row.getObject(1, UUID.class),
                        row.getTimestamp(2).toInstant(),
                        row.getString(3),
                        row.getObject(4, UUID.class),
                        row.getObject(5, UUID.class),
                        row.getString(6),
                        row.getString(7)),
                Timestamp.from(from),
                Timestamp.from(until),
                most);
    }

    private static byte[] next(byte[] previous, long position, Instant until, List<UUID> events, List<byte[]> hashes) {
        Digest digest = new Digest("audit seal 1")
                .bytes("previous", previous)
                .field("position", position)
                .field("until", until);
        for (int i = 0; i < events.size(); i++) {
            digest.field("id", events.get(i)).bytes("event", hashes.get(i));
        }
        return digest.value();
    }

    private static Array array(Connection connection, List<UUID> ids) throws java.sql.SQLException {
        return connection.createArrayOf("uuid", ids.toArray());
    }

    private static byte[] joined(List<byte[]> hashes) {
        byte[] all = new byte[HASH * hashes.size()];
        for (int i = 0; i < hashes.size(); i++) {
            System.arraycopy(hashes.get(i), 0, all, i * HASH, HASH);
        }
        return all;
    }

    private static List<byte[]> split(byte[] joined) {
        List<byte[]> hashes = new ArrayList<>();
        for (int at = 0; at < joined.length; at += HASH) {
            hashes.add(Arrays.copyOfRange(joined, at, at + HASH));
        }
        return hashes;
    }

    private record Head(long position, Instant until, byte[] hash) {}

    private record Seal(long position, Instant until, List<UUID> events, byte[] hashes, byte[] hash) {}

    private static final class Walk {
        private long events;
        private long position;
        private Instant until = Instant.EPOCH;
        private byte[] hash = BEGINNING;
    }

    private record Event(
            UUID id,
            Instant at,
            String kind,
            @Nullable UUID actor,
            @Nullable UUID subject,
            @Nullable String source,
            @Nullable String detail) {

        byte[] hash(@Nullable SiteId site) {
            return new Digest("audit 1")
                    .field("site", site)
                    .field("id", id)
                    .field("at", at)
                    .field("kind", kind)
                    .field("actor", actor)
                    .field("subject", subject)
                    .field("source", source)
                    .field("detail", detail)
                    .value();
        }
    }

    /** The tables of one chain; a site's id is no text that anybody typed. */
    private record Trail(String prefix, String where, String siteColumn, String siteValue) {

        static Trail of(@Nullable SiteId site) {
            return site == null
                    ? new Trail("service_", "true", "", "")
                    : new Trail("", "site_id = '" + site.value() + "'", "site_id, ", "'" + site.value() + "', ");
        }

        String table(String name) {
            return prefix + name;
        }
    }
}
