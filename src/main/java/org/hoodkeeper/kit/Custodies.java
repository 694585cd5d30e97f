package org.hoodkeeper.kit;

import java.sql.Timestamp;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Who has which set. The ledger keeps claims, which may contradict; the periods are derived from them in the same transaction,
 * and the database refuses two at once.
 */
@Service
public class Custodies {

    private final Ledger ledger;
    private final JdbcTemplate jdbc;

    Custodies(Ledger ledger, JdbcTemplate jdbc) {
        this.ledger = ledger;
        this.jdbc = jdbc;
    }

    /**
     * Takes the set for oneself until the transaction ends: whoever decides on or takes away a verdict does this first, then
     * the worker, the ledger last.
     *
     * @throws NotFound {@code set.unknown}
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock(SiteId site, SetId set) {
        if (jdbc.queryForList(
                        "select 1 from kit_set where site_id = ? and id = ? for update",
                        Integer.class,
                        site.value(),
                        set.value())
                .isEmpty()) {
            throw new NotFound("set.unknown", set);
        }
    }

    /**
     * Adds a claim made at the counter. A claim that contradicts those on record is refused: at the counter the set is in
     * somebody's hands and can be looked at.
     *
     * @throws Refused {@code custody.issued} when somebody has the set then, {@code custody.notIssued} when nobody has
     */
    @Transactional
    public RecordId claim(Author author, SetId set, Custody claim, @Nullable WorkerId worker, Instant at) {
        lock(author.site(), set);
        List<Claim> before = claims(author.site(), set);
        refuseContradiction(claim, worker, at, before);
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(claim, set, at).item(worker));
        if (claim.claim() == Custody.Claim.RETURNED || claim.claim() == Custody.Claim.FOUND) {
            drafts.addAll(settled(author.site(), set, at));
        }
        RecordId record = ledger.append(author, drafts).records().get(0);
        rebuild(author.site(), set);
        return record;
    }

    /** @param dispute the hold that lasts until the set is scanned; none where the claim fits those on record */
    public record Late(RecordId record, @Nullable RecordId dispute) {}

    /**
     * Adds a claim that was made elsewhere and arrives late, or stands in a file. It is kept even where it contradicts: the
     * set is nowhere to be looked at. Where two people are said to have the set now, it is held as disputed until it is
     * returned or found at the counter.
     *
     * @throws Refused {@code custody.worker} for an issue without worker, {@code ledger.future}
     */
    @Transactional
    public Late claimLate(
            Author author, SetId set, Custody claim, @Nullable WorkerId worker, Instant at, @Nullable String sourceId) {
        if (claim.claim() == Custody.Claim.ISSUED && worker == null) {
            throw new Refused("custody.worker");
        }
        lock(author.site(), set);
        List<Claim> all = new ArrayList<>(claims(author.site(), set));
        all.add(new Claim(new UUID(0, 0), claim.claim(), worker == null ? null : worker.value(), at));
        all.sort(Comparator.comparing(Claim::at));
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(claim, set, at).item(worker).source(sourceId));
        Claim last = all.get(all.size() - 1);
        if (all.size() > 1 && contradicts(all.get(all.size() - 2), last)) {
            drafts.add(Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DISPUTED, null), set, last.at()));
        }
        List<RecordId> records = ledger.append(author, drafts).records();
        rebuild(author.site(), set);
        return new Late(records.get(0), records.size() > 1 ? records.get(1) : null);
    }

    /** As {@link #lock(SiteId, SetId)}, for many in the order of their ids. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock(SiteId site, List<SetId> some) {
        jdbc.query(
                "select 1 from kit_set where site_id = ? and id = any(?) order by id for update",
                row -> {},
                site.value(),
                some.stream().map(SetId::value).toArray(UUID[]::new));
    }

    /**
     * Derives the periods of a set anew after claims came in from a file.
     *
     * @return the hold that a contradiction among the last two claims asks for, to be told with them; none where they agree, or
     *     where the set is held for it already
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public @Nullable Draft rebuildAfterImport(SiteId site, SetId set) {
        rebuild(site, set);
        List<Claim> all = claims(site, set);
        if (all.size() < 2 || !contradicts(all.get(all.size() - 2), all.get(all.size() - 1))) {
            return null;
        }
        Instant at = all.get(all.size() - 1).at();
        return settled(site, set, at).isEmpty()
                ? Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DISPUTED, null), set, at)
                : null;
    }

    private static boolean contradicts(Claim one, Claim next) {
        return one.claim() == Custody.Claim.ISSUED
                && next.claim() == Custody.Claim.ISSUED
                && !Objects.equals(one.worker(), next.worker());
    }

    /** The set is in hand: what was disputed about it is settled. */
    private List<Draft> settled(SiteId site, SetId set, Instant at) {
        Hold released = new Hold(Hold.Step.RELEASED, Hold.Why.DISPUTED, null);
        return jdbc.query(
                """
                select r.id from ledger_record r
                where r.site_id = ? and r.subject = ? and r.kind = ? and not r.withdrawn
                  and r.body ->> 'why' = 'DISPUTED' and r.body ->> 'step' = 'PLACED' and r.true_from <= ?
                  and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
                  and not exists (
                      select 1 from ledger_record d
                      where d.site_id = r.site_id and d.item = r.id and d.kind = r.kind and not d.withdrawn
                        and not exists (select 1 from ledger_record c where c.site_id = d.site_id and c.corrects = d.id))""",
                (row, n) -> Draft.of(released, set, at).item(new RecordId(row.getObject(1, UUID.class))),
                site.value(),
                set.value(),
                Kind.HOLD.number(),
                at.atOffset(ZoneOffset.UTC));
    }

    private static void refuseContradiction(Custody claim, @Nullable WorkerId worker, Instant at, List<Claim> before) {
        Claim last = null;
        for (Claim one : before) {
            if (one.at().isAfter(at)) {
                throw new Refused("custody.later", one.at());
            }
            last = one;
        }
        Instant issued = last != null && last.claim() == Custody.Claim.ISSUED ? last.at() : null;
        if (claim.claim() == Custody.Claim.ISSUED && worker == null) {
            throw new Refused("custody.worker");
        }
        if (claim.claim() == Custody.Claim.ISSUED && issued != null) {
            throw new Refused("custody.issued", issued);
        }
        if (claim.claim() == Custody.Claim.RETURNED && issued == null) {
            throw new Refused("custody.notIssued");
        }
    }

    /** Derives the periods of a set anew; every writer of claims calls it in its own transaction. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void rebuild(SiteId site, SetId set) {
        jdbc.update("delete from kit_custody where site_id = ? and set_id = ?", site.value(), set.value());
        for (Period period : periods(claims(site, set))) {
            jdbc.update(
                    """
                    insert into kit_custody (site_id, set_id, worker_id, claim_id, during)
                    values (?, ?, ?, ?, tstzrange(?, ?))""",
                    site.value(),
                    set.value(),
                    period.worker(),
                    period.claim(),
                    Timestamp.from(period.from()),
                    period.until() == null ? null : Timestamp.from(period.until()));
        }
        jdbc.query("select kit_shelve(?, ?)", row -> {}, site.value(), set.value());
    }

    /** @throws Refused {@code custody.issued} when somebody has the set in hand then */
    @Transactional(readOnly = true)
    public void requireInStore(SiteId site, SetId set, Instant at) {
        jdbc
                .query("""
                        select lower(during) from kit_custody
                        where site_id = ? and set_id = ? and during @> ?::timestamptz""", (row, n) -> row.getTimestamp(1).toInstant(), site.value(), set.value(), Timestamp.from(at))
                .stream()
                .findFirst()
                .ifPresent(since -> {
                    throw new Refused("custody.issued", since);
                });
    }

    /** The sets that a worker has in hand at an instant. */
    @Transactional(readOnly = true)
    public List<SetId> inHand(SiteId site, WorkerId worker, Instant at) {
        return jdbc.query(
                """
                select set_id from kit_custody
                where site_id = ? and worker_id = ? and during @> ?::timestamptz order by lower(during)""",
                (row, n) -> new SetId(row.getObject(1, UUID.class)),
                site.value(),
                worker.value(),
                Timestamp.from(at));
    }

    /** Each issue lasts until the next claim on the set, whatever it says. Two claims of one instant give no period. */
    static List<Period> periods(List<Claim> oldestFirst) {
        List<Period> periods = new ArrayList<>();
        for (int i = 0; i < oldestFirst.size(); i++) {
            Claim claim = oldestFirst.get(i);
            Instant until = i + 1 < oldestFirst.size() ? oldestFirst.get(i + 1).at() : null;
            if (claim.claim() == Custody.Claim.ISSUED
                    && claim.worker() != null
                    && (until == null || claim.at().isBefore(until))) {
                periods.add(new Period(claim.worker(), claim.record(), claim.at(), until));
            }
        }
        return periods;
    }

    private List<Claim> claims(SiteId site, SetId set) {
        return jdbc.query(
                """
                select r.id, r.item, r.scope, r.true_from, r.body ->> 'claim' from ledger_record r
                where r.site_id = ? and r.subject = ? and r.kind = ? and not r.withdrawn
                  and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
                order by r.true_from, r.recorded_at, r.id""",
                (row, n) -> new Claim(
                        row.getObject(1, UUID.class),
                        Custody.Claim.valueOf(row.getString(5)),
                        row.getObject(2, UUID.class),
                        row.getTimestamp(4).toInstant()),
                site.value(),
                set.value(),
                Kind.CUSTODY.number());
    }

    record Claim(UUID record, Custody.Claim claim, @Nullable UUID worker, Instant at) {}

    record Period(
            UUID worker, UUID claim, Instant from, @Nullable Instant until) {}
}
