package org.hoodkeeper.reporting;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.RunningWriters;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Site;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Where everybody on a site stands today, kept in memory and brought up to date at each look: people are judged anew whom a
 * record told since the last look concerns, and those whose verdict the calendar may have changed. Nothing marks them stale but
 * the ledger itself, so no writer can forget to, none pays for it, and several instances need not speak with each other.
 */
@Component
class Standings {

    /** So many people are kept at most, over all sites; some kilobytes each. */
    private static final int MOST_KEPT = 60_000;

    private static final Duration SLACK = RunningWriters.SLACK;

    /** Names are no records: whatever changes in them shows here. */
    private static final String NAMES = """
            select (select count(*) || '/' || bit_xor(hashtextextended(
                        w.number, hashtextextended(w.name, coalesce(hashtextextended(w.employer, 1), 0))))
                    from worker w where w.site_id = a.site)
                || ' ' || (select count(*) from task t where t.site_id = a.site)
                || ' ' || (select count(*) from kit_model m where m.site_id = a.site)
            from (select ?::uuid as site) a""";

    private final Rounds rounds;
    private final News news;
    private final People people;
    private final KnowledgeClock clock;
    private final JdbcTemplate jdbc;
    private final TransactionTemplate look;
    private final TransactionTemplate first;
    private final Map<SiteId, Holder> sites = new ConcurrentHashMap<>();

    Standings(
            Rounds rounds,
            News news,
            People people,
            KnowledgeClock clock,
            JdbcTemplate jdbc,
            PlatformTransactionManager transactions) {
        this.rounds = rounds;
        this.news = news;
        this.people = people;
        this.clock = clock;
        this.jdbc = jdbc;
        this.look = new TransactionTemplate(transactions);
        look.setReadOnly(true);
        look.setPropagationBehavior(TransactionDefinition.PROPAGATION_REQUIRES_NEW);
        look.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
        this.first = new TransactionTemplate(transactions);
        first.setReadOnly(true);
        first.setPropagationBehavior(TransactionDefinition.PROPAGATION_REQUIRES_NEW);
    }

    /**
     * @param at the moment of the look: right at that instant, as known then
     * @param news later entries were written at this time or after
     * @param names what the names looked like
     * @param holdsUntil the next instant at which the calendar alone may change any line
     */
    record Kept(Instant at, Instant news, String names, Map<WorkerId, Standing> standings, Instant holdsUntil) {

        private static Kept of(Instant at, Instant news, String names, Map<WorkerId, Standing> standings) {
            Instant holdsUntil = standings.values().stream()
                    .map(Standing::holdsUntil)
                    .min(Instant::compareTo)
                    .orElse(Instant.MAX);
            return new Kept(at, news, names, standings, holdsUntil);
        }

        /** By number. */
        Collection<Standing> everyone() {
            return standings.values();
        }
    }

    private static final class Holder {
        private volatile @Nullable Kept kept;
        private volatile long lastAsked;
    }

    /** Everybody on the site, now. One look at a time for each site: who comes meanwhile waits and then looks again. */
    Kept of(Site site) {
        Holder holder = sites.computeIfAbsent(site.id(), any -> new Holder());
        synchronized (holder) {
            // read before the look's own transaction begins
            Instant bound = first.execute(status -> RunningWriters.toldFrom(jdbc));
            Kept now = look.execute(status -> upToDate(site, holder.kept, bound));
            if (now == null) {
                throw new IllegalStateException("a look always sees something");
            }
            holder.kept = now;
            holder.lastAsked = System.nanoTime();
            forgetOthers(holder);
            return now;
        }
    }

    private Kept upToDate(Site site, @Nullable Kept before, @Nullable Instant bound) {
        Instant now = clock.now();
        Instant from = bound == null || bound.isAfter(now) ? now.minus(SLACK) : bound;
        String names = String.valueOf(
                jdbc.queryForObject(NAMES, String.class, site.id().value()));
        if (before == null || now.isBefore(before.at()) || !names.equals(before.names())) {
            return everybody(site, now, from, names);
        }
        Set<UUID> told = news.since(site.id(), before.news()).orElse(null);
        if (told == null || told.contains(site.id().value())) {
            return everybody(site, now, from, names);
        }
        if (told.isEmpty() && before.holdsUntil().isAfter(now)) {
            return new Kept(now, from, names, before.standings(), before.holdsUntil());
        }
        List<Worker> concerned = new ArrayList<>();
        for (Standing standing : before.everyone()) {
            if (!standing.holdsUntil().isAfter(now) || standing.isConcernedBy(told)) {
                concerned.add(standing.worker());
            }
        }
        if (concerned.isEmpty()) {
            return new Kept(now, from, names, before.standings(), before.holdsUntil());
        }
        Map<WorkerId, Standing> standings = new LinkedHashMap<>(before.standings());
        rounds.judge(site, Moment.of(null, false, now), concerned)
                .forEach(standing -> standings.put(standing.worker().id(), standing));
        return Kept.of(now, from, names, standings);
    }

    private Kept everybody(Site site, Instant now, Instant news, String names) {
        List<Worker> all = people.all(site.id());
        Map<WorkerId, Standing> standings = new LinkedHashMap<>(2 * all.size());
        rounds.judge(site, Moment.of(null, false, now), all)
                .forEach(standing -> standings.put(standing.worker().id(), standing));
        return Kept.of(now, news, names, standings);
    }

    /** The sites asked for longest ago make room. */
    private void forgetOthers(Holder mine) {
        long total = 0;
        for (Holder holder : sites.values()) {
            Kept kept = holder.kept;
            total += kept == null ? 0 : kept.standings().size();
        }
        while (total > MOST_KEPT) {
            Holder oldest = null;
            for (Holder holder : sites.values()) {
                if (holder != mine && holder.kept != null && (oldest == null || holder.lastAsked < oldest.lastAsked)) {
                    oldest = holder;
                }
            }
            Kept kept = oldest == null ? null : oldest.kept;
            if (oldest == null || kept == null) {
                return;
            }
            total -= kept.standings().size();
            oldest.kept = null;
        }
    }
}
