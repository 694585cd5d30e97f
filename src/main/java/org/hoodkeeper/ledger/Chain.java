package org.hoodkeeper.ledger;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import javax.sql.DataSource;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** Checks a site's record: every row against its hash, every entry against its rows, every seal against the one before. */
@Component
public class Chain {

    private final JdbcTemplate jdbc;

    Chain(DataSource dataSource) {
        // a whole record does not fit into memory: rows come in portions
        this.jdbc = new JdbcTemplate(dataSource);
        this.jdbc.setFetchSize(2_000);
    }

    /**
     * What a check found.
     *
     * @param entries sealed entries that were read
     * @param unsealed entries that are not linked yet
     * @param head the last seal's hash, hexadecimal
     * @param broken each broken place, in the order of the chain; empty when all is whole
     */
    public record Checked(long entries, long unsealed, String head, List<Broken> broken) {

        public boolean isWhole() {
            return broken.isEmpty();
        }
    }

    /**
     * @param position the seal's position, 0 where a row hangs on no seal
     * @param what code of what is wrong: {@code record.changed}, {@code record.missing}, {@code entry.changed},
     *     {@code entry.missing}, {@code seal.changed}, {@code seal.missing}, {@code head.differs}, {@code private.changed}, {@code private.missing}
     * @param id the row concerned
     */
    public record Broken(
            long position, String what, @Nullable UUID id) {}

    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public Checked check(SiteId site) {
        List<Broken> broken = new ArrayList<>();
        Walk walk = new Walk();
        jdbc.query(
                """
                select s.position, s.entry_id, s.hash, e.id, e.recorded_at, e.account_id, e.via, e.records, e.records_digest, e.hash
                from ledger_seal s left join ledger_entry e on e.site_id = s.site_id and e.id = s.entry_id
                where s.site_id = ? order by s.position""",
                row -> {
                    walk.entries++;
                    long position = row.getLong(1);
                    UUID entry = row.getObject(2, UUID.class);
                    if (position != walk.position + 1) {
                        broken.add(new Broken(walk.position + 1, "seal.missing", null));
                    }
                    byte[] seal = row.getBytes(3);
                    if (row.getObject(4) == null) {
                        broken.add(new Broken(position, "entry.missing", entry));
                    } else {
                        byte[] recordsDigest = row.getBytes(9);
                        byte[] hash = Ledger.entryHash(
                                site.value(),
                                entry,
                                Ledger.instant(row.getTimestamp(5)),
                                row.getObject(6, UUID.class),
                                row.getString(7),
                                row.getInt(8),
                                recordsDigest);
                        if (!Arrays.equals(hash, row.getBytes(10))) {
                            broken.add(new Broken(position, "entry.changed", entry));
                        }
                        if (!Arrays.equals(seal, Sealer.next(walk.hash, position, hash))) {
                            broken.add(new Broken(position, "seal.changed", entry));
                        }
                    }
                    walk.position = position;
                    walk.hash = seal;
                },
                site.value());
        checkHead(site, walk, broken);
        checkRecords(site, broken);
        checkPrivate(site, broken);
        Long unsealed = jdbc.queryForObject(
                "select count(*) from ledger_entry e where e.site_id = ? and not exists "
                        + "(select 1 from ledger_seal s where s.site_id = e.site_id and s.entry_id = e.id)",
                Long.class,
                site.value());
        return new Checked(
                walk.entries, unsealed == null ? 0 : unsealed, HexFormat.of().formatHex(walk.hash), broken);
    }

    private void checkHead(SiteId site, Walk walk, List<Broken> broken) {
        jdbc.query(
                "select position, hash from ledger_head where site_id = ?",
                row -> {
                    if (row.getLong(1) != walk.position || !Arrays.equals(row.getBytes(2), walk.hash)) {
                        broken.add(new Broken(row.getLong(1), "head.differs", null));
                    }
                },
                site.value());
    }

    private void checkRecords(SiteId site, List<Broken> broken) {
        Rows rows = new Rows(broken);
        jdbc.query(
                """
                select r.site_id, r.id, r.kind, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.entry_id,
                       r.corrects, r.withdrawn, r.source_id, r.body::text, r.private_digest, r.hash,
                       e.records, e.records_digest, coalesce(s.position, 0), e.recorded_at
                from ledger_entry e
                left join ledger_seal s on s.site_id = e.site_id and s.entry_id = e.id
                left join ledger_record r on r.site_id = e.site_id and r.entry_id = e.id
                where e.site_id = ? order by e.recorded_at, e.id, r.id""",
                row -> {
                    UUID entry = row.getObject(10, UUID.class);
                    if (entry == null) {
                        broken.add(new Broken(row.getLong(19), "record.missing", null));
                        return;
                    }
                    rows.begin(entry, row.getLong(19), row.getInt(17), row.getBytes(18));
                    java.sql.Timestamp until = row.getTimestamp(8);
                    Row record = new Row(
                            row.getObject(1, UUID.class),
                            row.getObject(2, UUID.class),
                            row.getInt(3),
                            row.getObject(4, UUID.class),
                            row.getObject(5, UUID.class),
                            row.getString(6),
                            Ledger.instant(row.getTimestamp(7)),
                            until == null ? null : until.toInstant(),
                            Ledger.instant(row.getTimestamp(9)),
                            entry,
                            row.getObject(11, UUID.class),
                            row.getBoolean(12),
                            row.getString(13),
                            row.getString(14),
                            row.getBytes(15));
                    rows.add(record, row.getBytes(16));
                },
                site.value());
        rows.end();
    }

    private void checkPrivate(SiteId site, List<Broken> broken) {
        jdbc.query(
                """
                select r.id, r.private_digest, p.salt, p.content::text, coalesce(s.position, 0)
                from ledger_record r
                left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
                left join ledger_seal s on s.site_id = r.site_id and s.entry_id = r.entry_id
                where r.site_id = ? and r.private_digest is not null""",
                row -> {
                    byte[] salt = row.getBytes(3);
                    String content = row.getString(4);
                    if (salt == null || content == null) {
                        broken.add(new Broken(row.getLong(5), "private.missing", row.getObject(1, UUID.class)));
                    } else if (!Arrays.equals(row.getBytes(2), Ledger.Hidden.digest(salt, content))) {
                        broken.add(new Broken(row.getLong(5), "private.changed", row.getObject(1, UUID.class)));
                    }
                },
                site.value());
    }

    private static final class Walk {
        long entries;
        long position;
        byte[] hash = Sealer.BEGINNING;
    }

    /** Gathers the records of one entry and compares them with what the entry says of them. */
    private static final class Rows {
        private final List<Broken> broken;
        private @Nullable UUID entry;
        private long position;
        private int expected;
        private byte[] expectedDigest = new byte[0];
        private int seen;
        private Digest digest = Ledger.recordsDigest();

        Rows(List<Broken> broken) {
            this.broken = broken;
        }

        void begin(UUID next, long at, int records, byte[] recordsDigest) {
            if (!next.equals(entry)) {
                end();
                entry = next;
                position = at;
                expected = records;
                expectedDigest = recordsDigest;
                seen = 0;
                digest = Ledger.recordsDigest();
            }
        }

        void add(Row row, byte[] stored) {
            byte[] hash = row.hash();
            if (!Arrays.equals(hash, stored)) {
                broken.add(new Broken(position, "record.changed", row.id()));
            }
            digest.bytes("record", stored);
            seen++;
        }

        void end() {
            if (entry == null) {
                return;
            }
            if (seen < expected) {
                broken.add(new Broken(position, "record.missing", entry));
            } else if (seen > expected || !Arrays.equals(digest.value(), expectedDigest)) {
                broken.add(new Broken(position, "entry.changed", entry));
            }
        }
    }
}
