package org.hoodkeeper.ledger;

import java.nio.ByteBuffer;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Links committed entries into the site's chain, in the order in which the site was told. Each entry has its own hash in the
 * chain, which follows from the one before; what is kept is the hash after each run of entries, and the run's entries.
 *
 * <p>Writers do not wait for each other: an entry commits with its own hash, and is linked within about a second. Only
 * entries older than the site's oldest running writer are taken, so that none can appear before one that is linked already. A head
 * row locked by every writer would be simpler, and reached a fifth of the speed with sixteen of them.
 */
@Component
public class Sealer {

    static final byte[] BEGINNING = new Digest("chain 1").value();

    /**
     * Writers of the site are known by the shared lock that {@code ledger_clock} takes before it reads the clock and that is
     * let go after the commit is seen. The clock is read here before the list of them: a writer missing from the list will be
     * given a later time. Two sites whose ids hash alike wait for each other's writers, which is no harm.
     */
    private static final String OLDEST_WRITER = """
            with seen as materialized (select clock_timestamp() as at)
            select least((select at from seen),
                         (select min(a.xact_start) from pg_locks l join pg_stat_activity a on a.pid = l.pid
                          where l.locktype = 'advisory' and l.classid = 19540 and l.objsubid = 2
                            and l.objid::bigint = (hashtext(?::text)::bigint & 4294967295)
                            and l.database = (select d.oid from pg_database d where d.datname = current_database())
                            and a.pid <> pg_backend_pid() and (select at from seen) is not null))""";

    private static final int AT_ONCE = 5_000;

    /** Entries of a run at most: few enough to be read again whenever one of them is looked for. */
    private static final int RUN = 500;

    /** Bytes of an entry's hash that its run keeps, to say which entry was changed. */
    static final int MARK = 8;

    private final JdbcTemplate jdbc;

    Sealer(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /** Links what can be linked. @return how many entries were linked; 0 when another instance is at it */
    @Transactional
    public int seal(SiteId site) {
        Head head = head(site);
        if (head == null) {
            return 0;
        }
        // the list of writers is read once in a transaction, and after the head: never before anything else took time
        Timestamp bound = jdbc.queryForObject(OLDEST_WRITER, Timestamp.class, site.value());
        List<Link> links = jdbc.query(
                """
                select e.id, e.hash, e.recorded_at from ledger_entry e
                where e.site_id = ? and e.recorded_at >= ? and e.written_at < ?
                  and not (e.recorded_at = ? and exists (select 1 from ledger_seal s
                      where s.site_id = e.site_id and s.recorded_until = e.recorded_at and e.id = any (s.entries)))
                order by e.recorded_at, e.id limit ?""",
                (row, n) -> new Link(row.getObject(1, UUID.class), row.getBytes(2), row.getTimestamp(3)),
                site.value(),
                head.recordedAt(),
                bound,
                head.recordedAt(),
                AT_ONCE);
        return links.isEmpty() ? 0 : link(site, head, links);
    }

    private @Nullable Head head(SiteId site) {
        List<Head> heads = lock(site);
        if (heads.isEmpty()) {
            jdbc.update(
                    "insert into ledger_head (site_id, position, hash, recorded_at) values (?, 0, ?, ?) on conflict do nothing",
                    site.value(),
                    BEGINNING,
                    Timestamp.from(Instant.EPOCH));
            heads = lock(site);
        }
        return heads.isEmpty() ? null : heads.get(0);
    }

    private List<Head> lock(SiteId site) {
        return jdbc.query(
                "select position, hash, recorded_at from ledger_head where site_id = ? for update skip locked",
                (row, n) -> new Head(row.getLong(1), row.getBytes(2), row.getTimestamp(3)),
                site.value());
    }

    private int link(SiteId site, Head head, List<Link> links) {
        byte[] hash = head.hash();
        long position = head.position();
        List<Run> runs = new ArrayList<>();
        for (int from = 0; from < links.size(); from += RUN) {
            List<Link> run = links.subList(from, Math.min(links.size(), from + RUN));
            for (Link link : run) {
                position++;
                hash = next(hash, position, link.hash());
            }
            runs.add(new Run(position, run, hash));
        }
        jdbc.batchUpdate("""
                insert into ledger_seal (site_id, position, entries, marks, recorded_from, recorded_until, hash, sealed_at)
                values (?, ?, ?, ?, ?, ?, ?, service_now())""", runs, runs.size(), (insert, run) -> {
            insert.setObject(1, site.value());
            insert.setLong(2, run.position());
            insert.setArray(3, insert.getConnection().createArrayOf("uuid", run.entries()));
            insert.setBytes(4, run.marks());
            insert.setTimestamp(5, run.links().get(0).recordedAt());
            insert.setTimestamp(6, run.last().recordedAt());
            insert.setBytes(7, run.hash());
        });
        jdbc.update(
                "update ledger_head set position = ?, hash = ?, recorded_at = ? where site_id = ?",
                position,
                hash,
                links.get(links.size() - 1).recordedAt(),
                site.value());
        return links.size();
    }

    static byte[] next(byte[] previous, long position, byte[] entry) {
        return new Digest("seal 1")
                .bytes("previous", previous)
                .field("position", position)
                .bytes("entry", entry)
                .value();
    }

    private record Head(long position, byte[] hash, Timestamp recordedAt) {}

    private record Link(UUID entry, byte[] hash, Timestamp recordedAt) {}

    /** @param position of the last entry @param hash after it */
    private record Run(long position, List<Link> links, byte[] hash) {

        Link last() {
            return links.get(links.size() - 1);
        }

        UUID[] entries() {
            return links.stream().map(Link::entry).toArray(UUID[]::new);
        }

        byte[] marks() {
            ByteBuffer marks = ByteBuffer.allocate(MARK * links.size());
            links.forEach(link -> marks.put(link.hash(), 0, MARK));
            return marks.array();
        }
    }
}
