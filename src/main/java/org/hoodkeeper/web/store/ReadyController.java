package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Stock;
import org.hoodkeeper.kernel.LocalTimes;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.ReadyCount;
import org.hoodkeeper.store.Readying;
import org.hoodkeeper.store.SparePool;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Will there be enough ready sets for the shift: by model and size, with what would make the missing ones ready soonest. */
@Controller
class ReadyController {

    /** When the early shift begins, where nobody says; common practice, no source. */
    private static final LocalTime SHIFT = LocalTime.of(6, 0);

    /** The levels that a site can decide on. */
    private static final List<String> LEVELS = List.of("0.90", "0.95", "0.98", "0.99", "0.995");

    private final Readying readying;
    private final SparePool pool;
    private final Stock stock;
    private final Desk desk;
    private final Refusals refusals;
    private final Show show;

    ReadyController(Readying readying, SparePool pool, Stock stock, Desk desk, Refusals refusals, Show show) {
        this.readying = readying;
        this.pool = pool;
        this.stock = stock;
        this.desk = desk;
        this.refusals = refusals;
        this.show = show;
    }

    @ModelAttribute("levels")
    List<Choice> levels() {
        return LEVELS.stream().map(level -> Choice.named(level, percent(level))).toList();
    }

    private String percent(String level) {
        return show.figure(new BigDecimal(level).movePointRight(2).stripTrailingZeros(), "%");
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/ready")
    String show(Visit visit, @ModelAttribute("ready") ReadyForm asked, BindingResult shape, Model page) {
        Instant now = desk.now();
        ReadyCount count = count(visit, asked, shape, now);
        String level = level(visit, asked, shape, now);
        if (!shape.hasErrors()) {
            page.addAttribute(
                    "ready", new ReadyForm(count.from().atZone(visit.zone()).toLocalDateTime(), level));
        }
        page.addAttribute("count", count);
        page.addAttribute("answer", answer(count));
        page.addAttribute("pool", pool.of(visit.viewer().site(), count, Double.parseDouble(level), now));
        page.addAttribute("level", percent(level));
        page.addAttribute("now", now);
        page.addAttribute("store", visit.viewer().isAny(Role.STOREKEEPER, Role.OFFICER));
        return "store/ready";
    }

    /** Of the next shift, and said beside it, where the time asked for cannot be answered. */
    private ReadyCount count(Visit visit, ReadyForm asked, BindingResult shape, Instant now) {
        if (asked.at() != null && !shape.hasFieldErrors("at")) {
            try {
                return readying.of(visit.viewer(), instant(asked.at(), visit.zone(), now), now);
            } catch (Refused refused) {
                refusals.show(refused, shape, "at");
            }
        }
        return readying.of(visit.viewer(), nextShift(visit.zone(), now), now);
    }

    /** As the site decided, and said beside it, where none or another was asked for. */
    private String level(Visit visit, ReadyForm asked, BindingResult shape, Instant now) {
        String level = asked.level();
        if (level != null && LEVELS.contains(level)) {
            return level;
        }
        if (level != null && !level.isBlank()) {
            refusals.show(new Refused("ready.level.unknown", level), shape, "level");
        }
        return stock.level(visit.viewer().site(), now);
    }

    private static Instant instant(LocalDateTime typed, ZoneId zone, Instant now) {
        // of a time that occurs twice the earlier one leaves less time to get ready
        Instant at = LocalTimes.instantOf(typed, zone, Occurrence.EARLIER);
        if (at.isBefore(now)) {
            throw new Refused("ready.at.past", typed);
        }
        return at;
    }

    private static Instant nextShift(ZoneId zone, Instant now) {
        Instant today = now.atZone(zone).with(SHIFT).toInstant();
        return today.isBefore(now) ? now.atZone(zone).plusDays(1).with(SHIFT).toInstant() : today;
    }

    private static String answer(ReadyCount count) {
        boolean known = count.withoutSize().isEmpty();
        if (count.wanted() == 0) {
            return known ? "ready.answer.nobody" : "ready.answer.unknown";
        }
        return (count.shortBy() == 0 ? "ready.answer.all" : "ready.answer.short") + (known ? "" : ".unknown");
    }
}
