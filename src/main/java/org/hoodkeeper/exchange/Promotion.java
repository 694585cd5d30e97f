package org.hoodkeeper.exchange;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.evidence.Cleanings;
import org.hoodkeeper.evidence.PartsTold;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Bulk;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.ledger.Ids;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Records the staged rows of one file: names first, then one ledger entry, all in one transaction. Rows pass through in
 * portions. Locks come last, once everything is written, and are held for the rest only.
 */
@Component
class Promotion {

    private static final int AT_ONCE = 5_000;

    private static final String RECEIVED = FactJson.open(new Custody(Custody.Claim.RECEIVED, null, null));

    private final JdbcTemplate jdbc;
    private final Ledger ledger;
    private final People people;
    private final Kit kit;
    private final Custodies custodies;
    private final Programme programme;
    private final Cleanings cleanings;
    private final AuditTrail audit;
    private final ApplicationEventPublisher events;

    Promotion(
            JdbcTemplate jdbc,
            Ledger ledger,
            People people,
            Kit kit,
            Custodies custodies,
            Programme programme,
            Cleanings cleanings,
            AuditTrail audit,
            ApplicationEventPublisher events) {
        this.jdbc = jdbc;
        this.ledger = ledger;
        this.people = people;
        this.kit = kit;
        this.custodies = custodies;
        this.programme = programme;
        this.cleanings = cleanings;
        this.audit = audit;
        this.events = events;
    }

    /** @param recorded rows that were new @param disputed sets held because two people are said to have them */
    record Done(long recorded, long disputed) {}

    /**
     * @throws org.springframework.dao.DuplicateKeyException when somebody else recorded one of the rows meanwhile: compare again
     */
    @Transactional(propagation = Propagation.REQUIRES_NEW)
    public Done promote(Author author, UUID job, FileKind kind) {
        Bulk bulk = kind.kind() == null ? null : ledger.bulk(author);
        long recorded = 0;
        long after = 0;
        for (List<Staged> page = page(author, job, after); !page.isEmpty(); page = page(author, job, after)) {
            enlist(author, kind, page);
            if (bulk != null) {
                Bulk into = bulk;
                page.forEach(row -> tell(into, Objects.requireNonNull(kind.kind()), row));
            }
            recorded += page.size();
            after = page.get(page.size() - 1).row();
        }
        List<UUID> disputed = List.of();
        if (bulk != null && recorded > 0) {
            bulk.flush();
            Map<SetId, Set<UUID>> spoilt = kind == FileKind.CLEANINGS ? maybeSpoilt(author, job) : Map.of();
            lock(author, job);
            if (kind == FileKind.CUSTODY) {
                disputed = rebuild(author, job, bulk);
            }
            bulk.close();
            announceParts(author, job, kind);
            note(author, job, disputed);
            note(author, job, holdSpoilt(author, spoilt));
            jdbc.update(
                    "insert into import_claim (site_id, record_id, told_claimed) select site_id, record_id, told_claimed"
                            + " from import_row where site_id = ? and job_id = ? and not found and told_claimed is not null",
                    author.site().value(),
                    job);
        }
        jdbc.update(
                "update import_job set state = 'RECORDED', recorded = ?, disputed = ?, ended_at = now(), seen_at = now()"
                        + " where site_id = ? and id = ?",
                recorded,
                disputed.size(),
                author.site().value(),
                job);
        audit.record(
                author.site(),
                AuditEntry.of("file.recorded").by(author.account()).about(job).saying(kind.slug() + " " + recorded));
        return new Done(recorded, disputed.size());
    }

    private List<UUID> holdSpoilt(Author author, Map<SetId, Set<UUID>> spoilt) {
        List<UUID> held = new ArrayList<>();
        spoilt.forEach((set, cleaned) -> {
            if (cleanings.holdAfterFile(author, set, cleaned)) {
                held.add(set.value());
            }
        });
        return held;
    }

    /** For the page of the file: whoever sent it has to go and get these sets. */
    private void note(Author author, UUID job, List<UUID> held) {
        jdbc.batchUpdate(
                "insert into import_held (site_id, job_id, set_id) values (?, ?, ?)",
                held.stream()
                        .map(set -> new Object[] {author.site().value(), job, set})
                        .toList());
    }

    /** After the entry counts: a recall may mean what it told. */
    private void announceParts(Author author, UUID job, FileKind kind) {
        switch (kind) {
            case PART_CHANGES, SETS -> {
                Set<SetId> sets = new LinkedHashSet<>();
                named(author, job, "kit_set").forEach(set -> sets.add(new SetId(set)));
                events.publishEvent(new PartsTold(author, sets));
            }
            case MODELS -> events.publishEvent(new PartsTold(author, null));
            default -> {
                // says nothing of parts
            }
        }
    }

    /**
     * The cleanings of the file by set, of sets that they may hold as one recorded by hand does: heat, product, contact or number of
     * washes that a part does not bear. Before anything is locked: a file of years names every set, and few of them are held. One
     * set after the other, since all cleanings of such a file do not fit into memory.
     */
    private Map<SetId, Set<UUID>> maybeSpoilt(Author author, UUID job) {
        Map<SetId, Set<UUID>> spoilt = new LinkedHashMap<>();
        jdbc.query(
                connection -> {
                    PreparedStatement rows = connection.prepareStatement("select subject, record_id from import_row"
                            + " where site_id = ? and job_id = ? and not found order by subject");
                    rows.setObject(1, author.site().value());
                    rows.setObject(2, job);
                    rows.setFetchSize(AT_ONCE);
                    return rows;
                },
                row -> {
                    boolean more = row.next();
                    while (more) {
                        SetId set = new SetId(row.getObject(1, UUID.class));
                        Set<UUID> cleaned = new HashSet<>();
                        for (; more && set.value().equals(row.getObject(1, UUID.class)); more = row.next()) {
                            cleaned.add(row.getObject(2, UUID.class));
                        }
                        if (cleanings.maySpoil(author.site(), set, cleaned)) {
                            spoilt.put(set, cleaned);
                        }
                    }
                    return spoilt;
                });
        return spoilt;
    }

    private record Staged(
            long row,
            @Nullable String code,
            @Nullable String person,
            @Nullable String employer,
            UUID record,
            @Nullable UUID second,
            Bulk.@Nullable Written written,
            UUID subject) {}

    private List<Staged> page(Author author, UUID job, long after) {
        return jdbc.query(
                "select r.row_no, r.code, r.person, r.employer, r.record_id, r.second_id, r.subject, r.item, r.scope, r.true_from,"
                        + " r.true_until, r.source_id, r.body, r.hidden, j.kind from import_row r join import_job j"
                        + " on j.site_id = r.site_id and j.id = r.job_id where r.site_id = ? and r.job_id = ? and r.row_no > ?"
                        + " and not r.found order by r.row_no limit " + AT_ONCE,
                (row, n) -> staged(row),
                author.site().value(),
                job,
                after);
    }

    private static Staged staged(ResultSet row) throws SQLException {
        UUID subject = row.getObject(7, UUID.class);
        Timestamp until = row.getTimestamp(11);
        String body = row.getString(13);
        Kind kind = FileKind.valueOf(row.getString(15)).kind();
        Bulk.Written written = body == null || kind == null
                ? null
                : new Bulk.Written(
                        kind,
                        subject,
                        row.getObject(8, UUID.class),
                        row.getString(9),
                        row.getTimestamp(10).toInstant(),
                        until == null ? null : until.toInstant(),
                        row.getString(12),
                        body,
                        row.getString(14));
        return new Staged(
                row.getLong(1),
                row.getString(2),
                row.getString(3),
                row.getString(4),
                row.getObject(5, UUID.class),
                row.getObject(6, UUID.class),
                written,
                subject);
    }

    private static void tell(Bulk bulk, Kind kind, Staged row) {
        Bulk.Written written = row.written();
        if (written == null) {
            throw new IllegalStateException("a staged row of " + kind + " without its record");
        }
        bulk.add(new RecordId(row.record()), written);
        if (row.second() != null) {
            bulk.add(
                    new RecordId(row.second()),
                    new Bulk.Written(
                            Kind.CUSTODY, row.subject(), null, null, written.from(), null, null, RECEIVED, null));
        }
    }

    private void enlist(Author author, FileKind kind, List<Staged> page) {
        Names.Sort register = kind.register();
        if (register == null) {
            return;
        }
        if (register == Names.Sort.WORKER) {
            people.enlist(
                    author.site(),
                    page.stream()
                            .map(row -> new People.Listed(
                                    new WorkerId(row.subject()),
                                    Objects.requireNonNull(row.code()),
                                    Objects.requireNonNull(row.person()),
                                    row.employer()))
                            .toList());
            return;
        }
        Map<UUID, String> names = new LinkedHashMap<>();
        page.forEach(row -> names.put(row.subject(), Objects.requireNonNull(row.code())));
        switch (register) {
            case SET -> kit.enlist(author.site(), Kit.Register.SETS, names);
            case MODEL -> kit.enlist(author.site(), Kit.Register.MODELS, names);
            case INSTRUMENT -> kit.enlist(author.site(), Kit.Register.INSTRUMENTS, names);
            case SUPPLY -> kit.enlist(author.site(), Kit.Register.SUPPLIES, names);
            case TASK -> programme.enlist(author.site(), names);
            case WORKER -> throw new IllegalStateException("people are entered above");
        }
    }

    /** Sets before workers, each in the order of their ids, as everybody else takes them. */
    private void lock(Author author, UUID job) {
        List<UUID> sets = named(author, job, "kit_set");
        custodies.lock(author.site(), sets.stream().map(SetId::new).toList());
        List<UUID> workers = named(author, job, "worker");
        people.lock(author.site(), workers.stream().map(WorkerId::new).toList());
    }

    private List<UUID> named(Author author, UUID job, String table) {
        return jdbc.queryForList(
                "select k.id from " + table + " k where k.site_id = ? and k.id in ("
                        + "select subject from import_row where site_id = ? and job_id = ? and not found union "
                        + "select item from import_row where site_id = ? and job_id = ? and not found) order by k.id",
                UUID.class,
                author.site().value(),
                author.site().value(),
                job,
                author.site().value(),
                job);
    }

    private List<UUID> rebuild(Author author, UUID job, Bulk bulk) {
        List<Draft> disputes = new ArrayList<>();
        for (UUID set : named(author, job, "kit_set")) {
            Draft dispute = custodies.rebuildAfterImport(author.site(), new SetId(set));
            if (dispute != null) {
                disputes.add(dispute);
            }
        }
        disputes.forEach(dispute -> bulk.add(new RecordId(Ids.next()), Bulk.Written.of(dispute)));
        return disputes.stream().map(Draft::subject).toList();
    }
}
