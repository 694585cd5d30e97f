package org.hoodkeeper.web.oversight;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.LookBacks;
import org.hoodkeeper.web.PageAddress;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Every failure that asks for a look-back, with how many wears lie inside; counts alone, so that it names nobody. */
@Controller
class LookBacksController {

    private static final int ROWS = 50;
    private static final Duration BACK = Duration.ofDays(92);

    private final LookBacks lookBacks;
    private final LookBackWords words;
    private final Names names;
    private final Sheets sheets;
    private final Refusals refusals;

    LookBacksController(LookBacks lookBacks, LookBackWords words, Names names, Sheets sheets, Refusals refusals) {
        this.lookBacks = lookBacks;
        this.words = words;
        this.names = names;
        this.sheets = sheets;
        this.refusals = refusals;
    }

    /** A look-back in words. */
    public record Line(LookBacks.Whole whole, String about, String what) {}

    @Allowed({Role.STOREKEEPER, Role.OFFICER, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/look-backs")
    String show(Visit visit, @ModelAttribute("asked") LookBacksForm asked, BindingResult shape, Model page) {
        Instant now = sheets.now();
        LocalDate firstDay = refusals.day(asked.from(), shape, "from");
        LocalDate lastDay = refusals.day(asked.until(), shape, "until");
        Instant from = firstDay == null ? now.minus(BACK) : Days.startOf(firstDay, visit.zone());
        Instant until = lastDay == null ? now.plusSeconds(1) : Days.endOf(lastDay, visit.zone());
        Names.Book book = names.of(visit);
        List<LookBacks.Whole> all = lookBacks.of(visit.viewer().site(), from, until).stream()
                .filter(whole -> isOf(asked.set(), whole, book))
                .toList();
        int first = Math.min(all.size(), (asked.number() - 1) * ROWS);
        int last = Math.min(all.size(), first + ROWS);
        page.addAttribute("from", from);
        page.addAttribute(
                "lines",
                all.subList(first, last).stream()
                        .map(whole -> new Line(whole, words.about(whole, book), words.what(whole)))
                        .toList());
        page.addAttribute("count", all.size());
        page.addAttribute("shown", last);
        page.addAttribute("next", last < all.size() ? next(visit, asked) : null);
        page.addAttribute(
                "awaiting", all.stream().filter(LookBacks.Whole::awaitsDecision).count());
        page.addAttribute("open", all.stream().filter(LookBacks.Whole::isOpen).count());
        return "oversight/look-backs";
    }

    private static boolean isOf(@Nullable String label, LookBacks.Whole whole, Names.Book book) {
        return label == null
                || label.isBlank()
                || whole.exposed().stream().anyMatch(one -> book.of(one.set()).equalsIgnoreCase(label.strip()));
    }

    private static String next(Visit visit, LookBacksForm asked) {
        return PageAddress.of(visit, "/look-backs")
                .with("from", asked.from())
                .with("until", asked.until())
                .with("set", asked.set())
                .with("page", asked.number() + 1)
                .toString();
    }
}
