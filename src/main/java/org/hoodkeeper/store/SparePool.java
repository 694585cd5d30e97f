package org.hoodkeeper.store;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.calculation.stock.Away;
import org.hoodkeeper.calculation.stock.Spares;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * How many spare sets a model and size needs, from how long its sets were away: held, with an open defect, missing, or back and
 * not yet washed. As known now. A set counts from its receipt or acceptance until it is withdrawn; one kept for emergencies does
 * not.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class SparePool {

    /** Looked back that long; common practice, no source. */
    private static final Duration LOOKED_AT = Duration.ofDays(180);

    /** With fewer spells away the share is chance; common practice, no source. */
    private static final int LEAST_SPELLS = 5;

    /** Sets that are hardly ever there are no pool to plan; common practice, no source. */
    private static final double MOST_AWAY = 0.95;

    private final Kit kit;
    private final JdbcTemplate jdbc;

    SparePool(Kit kit, JdbcTemplate jdbc) {
        this.kit = kit;
        this.jdbc = jdbc;
    }

    /**
     * The spares of one model and size.
     *
     * @param size with how many are wanted and kept
     * @param away what the number rests on: the model's own, or the whole site's
     * @param ofSite whether it is the site's, because the model's own is too little
     * @param spares none where unknown: too few spells, or away nearly always
     */
    public record Pool(
            ReadyCount.OfSize size,
            Away away,
            boolean ofSite,
            @Nullable Integer spares) {

        /** Sets that the pool should have; none where unknown. */
        public @Nullable Integer needed() {
            return spares == null ? null : size.wanted() + spares;
        }

        public boolean isShort() {
            Integer needed = needed();
            return needed != null && size.kept() < needed;
        }

        /** Share of the time away, rounded up to a tenth of a percent. */
        public BigDecimal percent() {
            return BigDecimal.valueOf(away.share() * 100).setScale(1, RoundingMode.CEILING);
        }

        /** Whether too little happened to tell. */
        public boolean isTooFew() {
            return away.spells() < LEAST_SPELLS;
        }
    }

    /** Of what is wanted. @param level wanted probability of enough ready sets, above 0, below 1 */
    public List<Pool> of(SiteId site, ReadyCount count, double level, Instant now) {
        Map<String, Away> models = aways(site, now);
        Away all = models.values().stream().reduce(Away.NONE, Away::plus);
        return count.sizes().stream()
                .filter(size -> size.wanted() > 0)
                .map(size -> pool(size, models.getOrDefault(size.model(), Away.NONE), all, level))
                .toList();
    }

    private static Pool pool(ReadyCount.OfSize size, Away own, Away all, double level) {
        boolean ofSite = own.spells() < LEAST_SPELLS;
        Away away = ofSite ? all : own;
        boolean known = away.spells() >= LEAST_SPELLS && away.share() <= MOST_AWAY;
        return new Pool(size, away, ofSite, known ? Spares.sets(size.wanted(), away.share(), level) : null);
    }

    /** By code of the model. */
    private Map<String, Away> aways(SiteId site, Instant now) {
        Map<String, String> codes = new HashMap<>();
        kit.models(site).forEach(model -> codes.put(model.id().value().toString(), model.code()));
        Map<UUID, List<Event>> sets = new LinkedHashMap<>();
        events(site, now)
                .forEach(event -> sets.computeIfAbsent(event.set(), set -> new ArrayList<>())
                        .add(event));
        Map<String, Away> models = new HashMap<>();
        for (List<Event> events : sets.values()) {
            Story story = new Story(now);
            events.forEach(story::tell);
            String code = codes.get(story.model);
            Interval within = story.within();
            if (code != null && within != null && !story.emergency) {
                models.merge(code, Away.of(story.spells(), within), Away::plus);
            }
        }
        return models;
    }

    /** One record of a set, with what decides here. @param yes kept for emergencies; or returned worn, also where nobody said */
    private record Event(
            UUID id,
            UUID set,
            @Nullable UUID item,
            Kind kind,
            Instant from,
            @Nullable String word,
            @Nullable String why,
            @Nullable String model,
            boolean yes) {

        boolean is(Enum<?> one) {
            return one.name().equals(word);
        }

        boolean isOf(Hold.Why one) {
            return one.name().equals(why);
        }
    }

    /** Claims and washes reach back twice as far, for one that began before; who is missing longer is still missing. */
    private List<Event> events(SiteId site, Instant now) {
        return jdbc.query(
                """
                select r.id, r.subject, r.item, r.kind, r.true_from,
                       coalesce(r.body ->> 'step', r.body ->> 'claim', r.body ->> 'method') as word, r.body ->> 'why' as why,
                       r.body ->> 'model' as model, coalesce(r.body ->> 'emergency', r.body ->> 'worn', '') as yes
                from kit_set s join ledger_record r on r.site_id = s.site_id and r.subject = s.id
                where s.site_id = ? and r.kind in (?, ?, ?, ?, ?) and not r.withdrawn and r.true_from <= ?
                  and (r.kind in (?, ?, ?) or r.true_from >= ? or r.body ->> 'claim' in ('MISSING', 'FOUND'))
                  and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
                order by r.subject, r.true_from, r.recorded_at, r.id""",
                (row, n) -> event(row),
                site.value(),
                Kind.SET.number(),
                Kind.HOLD.number(),
                Kind.DEFECT.number(),
                Kind.CUSTODY.number(),
                Kind.CLEANING.number(),
                Timestamp.from(now),
                Kind.SET.number(),
                Kind.HOLD.number(),
                Kind.DEFECT.number(),
                now.minus(LOOKED_AT.multipliedBy(2)).atOffset(ZoneOffset.UTC));
    }

    private static Event event(ResultSet row) throws SQLException {
        Kind kind = Kind.ofNumber(row.getInt("kind"));
        String yes = row.getString("yes");
        return new Event(
                row.getObject("id", UUID.class),
                row.getObject("subject", UUID.class),
                row.getObject("item", UUID.class),
                kind,
                row.getTimestamp("true_from").toInstant(),
                row.getString("word"),
                row.getString("why"),
                row.getString("model"),
                kind == Kind.SET ? "true".equals(yes) : !"false".equals(yes));
    }

    /** One set while its records are read, oldest first. */
    private static final class Story {

        private final Instant now;
        private final Map<UUID, Instant> open = new LinkedHashMap<>();
        private final List<Interval> spells = new ArrayList<>();
        private @Nullable String model;
        private boolean emergency;
        private @Nullable Instant first;
        private @Nullable Instant accepted;
        private @Nullable Instant withdrawn;
        private @Nullable Instant returned;
        private @Nullable Instant missing;

        Story(Instant now) {
            this.now = now;
        }

        void tell(Event event) {
            switch (event.kind()) {
                case SET -> {
                    model = event.model();
                    emergency = event.yes();
                    first = first == null ? event.from() : first;
                }
                case HOLD -> hold(event);
                case DEFECT -> {
                    if (event.is(Defect.Step.FOUND)) {
                        open.put(event.id(), event.from());
                    } else {
                        close(event);
                    }
                }
                case CUSTODY -> claim(event);
                default -> {
                    if (event.is(Cleaning.Method.WASH_AND_DISINFECT)) {
                        returned = spell(returned, event.from());
                    }
                }
            }
        }

        private void hold(Event event) {
            boolean placed = event.is(Hold.Step.PLACED);
            if (event.isOf(Hold.Why.NOT_ACCEPTED)) {
                // not in use until then, and so neither there nor away
                accepted = placed ? now : event.from();
            } else if (event.isOf(Hold.Why.WITHDRAWN) || event.isOf(Hold.Why.DISPOSED)) {
                withdrawn = placed ? (withdrawn == null ? event.from() : withdrawn) : null;
            } else if (placed) {
                open.put(event.id(), event.from());
            } else {
                close(event);
            }
        }

        private void close(Event event) {
            Instant from = event.item() == null ? null : open.remove(event.item());
            spell(from, event.from());
        }

        private void claim(Event event) {
            missing = spell(missing, event.from());
            if (event.is(Custody.Claim.MISSING)) {
                missing = event.from();
            }
            returned = spell(returned, event.from());
            // not said whether it was worn counts as worn
            if (event.is(Custody.Claim.RETURNED) && event.yes()) {
                returned = event.from();
            }
        }

        private @Nullable Instant spell(@Nullable Instant from, Instant until) {
            if (from != null && from.isBefore(until)) {
                spells.add(new Interval(from, until));
            }
            return null;
        }

        List<Interval> spells() {
            open.values().forEach(from -> spell(from, now));
            spell(missing, now);
            spell(returned, now);
            return spells;
        }

        /** While it belonged to the pool, of the time looked at; none where it never did. */
        @Nullable Interval within() {
            Instant from = now.minus(LOOKED_AT);
            from = first != null && first.isAfter(from) ? first : from;
            from = accepted != null && accepted.isAfter(from) ? accepted : from;
            Instant until = withdrawn == null ? now : withdrawn;
            return first != null && from.isBefore(until) ? new Interval(from, until) : null;
        }
    }
}
