package org.hoodkeeper.evidence;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.calculation.parts.PrintedMark;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.StockCount;
import org.hoodkeeper.facts.StockReceipt;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the store keeps by lot: taken in, taken out, counted. How much is left is derived from these and never written down. */
@Service
@Transactional
public class Stock {

    private static final String LEVEL = "stock.service-level";

    /** Where no rule set speaks; common practice, no source. */
    private static final String USUAL_LEVEL = "0.95";

    /** Use is taken from that long before; common practice, no source. */
    private static final Duration LOOKED_AT = Duration.ofDays(180);

    private static final int DELIVERIES = 5;

    private final Telling telling;
    private final Known known;

    Stock(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * Everything the store keeps.
     *
     * @param level wanted probability that stock lasts until the delivery
     * @param isDecided whether the site decided that level, or the default counts
     * @param items what to order first, then what runs out first
     * @param strangers parts fitted of late whose lot was never taken in, although the store keeps that part
     */
    public record Kept(String level, boolean isDecided, List<StockItem> items, List<Stranger> strangers) {}

    /** A part of a lot that the store never had. */
    public record Stranger(SetId set, String part, String lot, Instant at) {}

    /**
     * Takes a delivery in. One that is over its day already is recorded, and does not count.
     *
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code stock.item.missing}, {@code
     *     stockReceipt.orderedOn.later} when it was ordered after it came, {@code stockReceipt.lastDay.differs} when the same lot is
     *     on record with another last day; {@code ledger.future}
     */
    public RecordId receive(Author author, String item, StockReceipt receipt, Instant at, @Nullable String sourceId) {
        LocalDate day = Days.of(at, known.zone(author.site()));
        if (receipt.orderedOn() != null && receipt.orderedOn().isAfter(day)) {
            throw new Refused("stockReceipt.orderedOn.later", receipt.orderedOn(), day);
        }
        StockLot before = lot(author.site(), item, receipt.lot(), at);
        if (receipt.lot() != null
                && before != null
                && before.lastDay() != null
                && receipt.lastDay() != null
                && !before.lastDay().equals(receipt.lastDay())) {
            throw new Refused("stockReceipt.lastDay.differs", receipt.lot(), before.lastDay());
        }
        return tell(author, item, receipt, at, sourceId);
    }

    /**
     * Takes out. More than is on record, or of a lot never seen, is recorded: the shelf is right, and the count follows.
     *
     * @throws Refused as {@link #receive}; {@code stockUse.lot.expired} when that lot is over its day and it is not thrown away
     */
    public RecordId take(Author author, String item, StockUse use, Instant at, @Nullable String sourceId) {
        StockLot lot = lot(author.site(), item, use.lot(), at);
        if (lot != null && lot.expired() && use.use() != StockUse.Use.DISCARDED) {
            throw new Refused("stockUse.lot.expired", use.lot() == null ? "–" : use.lot(), lot.lastDay());
        }
        return tell(author, item, use, at, sourceId);
    }

    /** Says what lies there. @throws Refused as {@link #receive} */
    public RecordId count(Author author, String item, StockCount count, Instant at, @Nullable String sourceId) {
        return tell(author, item, count, at, sourceId);
    }

    private RecordId tell(Author author, String item, Fact fact, Instant at, @Nullable String sourceId) {
        Shape.present(item, "stock.item.missing");
        Shape.name(item, "item");
        return telling.tell(
                author, Draft.of(fact, author.site(), at).scope(item).source(sourceId));
    }

    /**
     * What follows for the store when a part is fitted: one less of its lot, where the store has that lot; and the set is held when
     * the lot was over its day.
     */
    List<Draft> fitted(SiteId site, SetId set, PartChange change, Instant at) {
        StockLot lot = change.lot() == null ? null : lot(site, change.part(), change.lot(), at);
        if (lot == null) {
            return List.of();
        }
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(new StockUse(change.lot(), 1, StockUse.Use.FITTED), site, at)
                .scope(change.part())
                .item(set));
        drafts.addAll(overItsDay(site, set, change, at));
        return drafts;
    }

    /** The hold for a part of a lot that was over its day; none where it was not, or the store never had that lot. */
    List<Draft> overItsDay(SiteId site, SetId set, PartChange change, Instant at) {
        StockLot lot = change.lot() == null ? null : lot(site, change.part(), change.lot(), at);
        if (lot == null || !lot.expired()) {
            return List.of();
        }
        String reason = change.part() + ", " + change.lot() + ": " + lot.lastDay();
        return List.of(Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.QUARANTINE, reason), set, at));
    }

    /** One lot as it stands; none where the store never had it. @param lot none for pieces without one */
    @Transactional(readOnly = true)
    public @Nullable StockLot lot(SiteId site, String item, @Nullable String lot, Instant at) {
        Shelf shelf = shelves(known.stock(site, item, at)).get(item);
        Balance balance = shelf == null ? null : shelf.lots.get(key(lot));
        return balance == null ? null : balance.at(Days.of(at, known.zone(site)));
    }

    /** Whether the store ever had the thing, of whatever lot. */
    @Transactional(readOnly = true)
    public boolean keeps(SiteId site, String item, Instant at) {
        return !known.stock(site, item, at).isEmpty();
    }

    /** Wanted probability that stock lasts and sets are ready: what the site decided, else the usual figure. */
    @Transactional(readOnly = true)
    public String level(SiteId site, Instant at) {
        return level(known.rules(site).at(at).decision(LEVEL));
    }

    private static String level(InForce.@Nullable Decided decided) {
        return decided == null ? USUAL_LEVEL : decided.value();
    }

    /** Everything the store keeps, as known now. */
    @Transactional(readOnly = true)
    public Kept kept(SiteId site, Instant at) {
        InForce.@Nullable Decided decided = known.rules(site).at(at).decision(LEVEL);
        String level = level(decided);
        ZoneId zone = known.zone(site);
        Map<String, Shelf> shelves = shelves(known.stock(site, null, at));
        List<StockItem> items = new ArrayList<>();
        shelves.forEach((code, shelf) -> items.add(shelf.item(code, at, zone, Double.parseDouble(level))));
        items.sort(Comparator.comparing((StockItem item) -> !item.isToOrder())
                .thenComparing(item -> item.lasts() == null ? Integer.MAX_VALUE : item.lasts())
                .thenComparing(StockItem::code));
        boolean own = decided != null && decided.record() != null;
        return new Kept(level, own, List.copyOf(items), strangers(site, shelves, at));
    }

    private List<Stranger> strangers(SiteId site, Map<String, Shelf> shelves, Instant at) {
        List<Stranger> strangers = new ArrayList<>();
        for (Told<PartChange> told : known.within(site, PartChange.class, Kind.PART_CHANGE, at.minus(LOOKED_AT), at)) {
            String lot = told.fact().lot();
            Shelf shelf = shelves.get(told.fact().part());
            if (lot != null
                    && shelf != null
                    && !shelf.lots.containsKey(key(lot))
                    && !told.from().isBefore(shelf.since)) {
                strangers.add(
                        new Stranger(new SetId(told.subject()), told.fact().part(), lot, told.from()));
            }
        }
        return List.copyOf(strangers);
    }

    private static Map<String, Shelf> shelves(List<Told<? extends Fact>> oldestFirst) {
        Map<String, Shelf> shelves = new LinkedHashMap<>();
        for (Told<? extends Fact> told : oldestFirst) {
            if (told.scope() != null) {
                shelves.computeIfAbsent(told.scope(), code -> new Shelf(told.from()))
                        .add(told);
            }
        }
        return shelves;
    }

    /** A lot that was typed in another way is the same lot: {@link PrintedMark}. */
    private static String key(@Nullable String lot) {
        return lot == null ? "" : PrintedMark.plain(lot);
    }

    /** All lots of one thing while its story is read. */
    private static final class Shelf {

        private final Map<String, Balance> lots = new LinkedHashMap<>();
        private final List<Told<? extends Fact>> uses = new ArrayList<>();
        private final List<Told<StockReceipt>> receipts = new ArrayList<>();
        private final Instant since;

        Shelf(Instant since) {
            this.since = since;
        }

        @SuppressWarnings("unchecked")
        void add(Told<? extends Fact> told) {
            if (told.fact() instanceof StockReceipt receipt) {
                balance(receipt.lot()).add(receipt.pieces(), receipt.lastDay());
                receipts.add((Told<StockReceipt>) told);
            } else if (told.fact() instanceof StockCount count) {
                balance(count.lot()).count(count.pieces(), count.lastDay());
            } else if (told.fact() instanceof StockUse use) {
                balance(use.lot()).add(-use.pieces(), null);
                uses.add(told);
            }
        }

        private Balance balance(@Nullable String lot) {
            return lots.computeIfAbsent(key(lot), name -> new Balance(lot));
        }

        StockItem item(String code, Instant at, ZoneId zone, double level) {
            LocalDate day = Days.of(at, zone);
            Instant from = since.isAfter(at.minus(LOOKED_AT)) ? since : at.minus(LOOKED_AT);
            List<StockLot> all = lots.values().stream()
                    .map(balance -> balance.at(day))
                    .filter(lot -> lot.pieces() != 0)
                    .sorted(Comparator.comparing(StockLot::lastDay, Comparator.nullsLast(Comparator.naturalOrder())))
                    .toList();
            return new StockItem(
                    code,
                    all.stream().filter(lot -> !lot.expired()).toList(),
                    all.stream().filter(StockLot::expired).toList(),
                    used(from),
                    (int) ChronoUnit.DAYS.between(from, at),
                    leadDays(zone),
                    level);
        }

        private int used(Instant from) {
            int used = 0;
            for (Told<? extends Fact> told : uses) {
                StockUse use = (StockUse) told.fact();
                used += told.from().isBefore(from) || use.use() == StockUse.Use.DISCARDED ? 0 : use.pieces();
            }
            return used;
        }

        private @Nullable Integer leadDays(ZoneId zone) {
            Integer longest = null;
            int seen = 0;
            Set<String> deliveries = new HashSet<>();
            for (int i = receipts.size() - 1; i >= 0 && seen < DELIVERIES; i--) {
                LocalDate ordered = receipts.get(i).fact().orderedOn();
                LocalDate came = Days.of(receipts.get(i).from(), zone);
                if (ordered != null && deliveries.add(ordered + " " + came)) {
                    int days = (int) ChronoUnit.DAYS.between(ordered, came);
                    longest = longest == null ? days : Math.max(longest, days);
                    seen++;
                }
            }
            return longest;
        }
    }

    /** One lot while its story is read. */
    private static final class Balance {

        private final @Nullable String lot;
        private int pieces;
        private @Nullable LocalDate lastDay;

        Balance(@Nullable String lot) {
            this.lot = lot;
        }

        void add(int more, @Nullable LocalDate day) {
            pieces += more;
            earlier(day);
        }

        void count(int counted, @Nullable LocalDate day) {
            pieces = counted;
            earlier(day);
        }

        /** Of two days on record the earlier one counts: the stricter reading. */
        private void earlier(@Nullable LocalDate day) {
            if (day != null && (lastDay == null || day.isBefore(lastDay))) {
                lastDay = day;
            }
        }

        StockLot at(LocalDate day) {
            return new StockLot(lot, pieces, lastDay, lastDay != null && day.isAfter(lastDay));
        }
    }
}
