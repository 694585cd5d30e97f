package org.hoodkeeper.web.oversight;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.Proportion;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.ProgrammeFigures;
import org.hoodkeeper.oversight.ProgrammeFigures.Indicator;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** How the programme did in a period, for its yearly evaluation: each figure with what it is made of. */
@Controller
class IndicatorsController {

    private static final int MONTHS_BACK = 3;

    /** As many wears as somebody who waits for the page can wait for. */
    private static final int JUDGED_AT_ONCE = 60;

    private final ProgrammeFigures figures;
    private final Sheets sheets;
    private final Words words;
    private final Show show;
    private final Refusals refusals;

    IndicatorsController(ProgrammeFigures figures, Sheets sheets, Words words, Show show, Refusals refusals) {
        this.figures = figures;
        this.sheets = sheets;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
    }

    /** One figure in words. */
    public record Row(
            String name,
            String value,
            String interval,
            String numerator,
            String denominator,
            String definition,
            String leftOut) {}

    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/indicators")
    String show(Visit visit, @ModelAttribute("asked") IndicatorsForm asked, BindingResult shape, Model page) {
        LocalDate today = Days.of(sheets.now(), visit.zone());
        LocalDate last = day(asked.until(), "until", shape, today);
        LocalDate first = day(asked.from(), "from", shape, last.minusMonths(MONTHS_BACK));
        if (first.isAfter(last)) {
            refusals.show(new Refused("indicators.order", show.day(first), show.day(last)), shape, "from");
            first = last;
        }
        Instant from = Days.startOf(first, visit.zone());
        Instant until = Days.endOf(last, visit.zone());
        List<Indicator> all = figures.of(visit.viewer().site(), from, until, JUDGED_AT_ONCE);
        page.addAttribute("sentence", sentence(all, first, last));
        page.addAttribute("first", first);
        page.addAttribute("last", last);
        page.addAttribute("rows", all.stream().map(this::row).toList());
        return "oversight/indicators";
    }

    private LocalDate day(@Nullable String text, String field, BindingResult shape, LocalDate usual) {
        LocalDate typed = refusals.day(text, shape, field);
        return typed == null ? usual : typed;
    }

    private String sentence(List<Indicator> all, LocalDate first, LocalDate last) {
        BigDecimal covered = all.get(0).value();
        return covered == null
                ? words.say("indicators.answer.none", show.day(first), show.day(last))
                : words.say("indicators.answer", show.day(first), show.day(last), covered);
    }

    private Row row(Indicator one) {
        String key = "indicators." + one.name();
        String part = one.of();
        String name = part == null
                ? words.say(key)
                : words.say(key + ".of", part.isEmpty() ? words.say("indicators.noPart") : part);
        return new Row(
                name,
                one.value() == null ? words.say("indicators.noData") : words.say(key + ".value", one.value()),
                interval(one.interval()),
                words.say(key + ".numerator", one.numerator()),
                words.say(key + ".denominator", one.denominator()),
                words.say(key + ".definition"),
                one.leftOut() == 0 ? "" : words.say(key + ".leftOut", one.leftOut()));
    }

    private String interval(@Nullable Proportion sample) {
        return sample == null
                ? ""
                : words.say(
                        "indicators.interval",
                        percent(sample.lower(), RoundingMode.FLOOR),
                        percent(sample.upper(), RoundingMode.CEILING));
    }

    private static BigDecimal percent(double share, RoundingMode rounding) {
        return BigDecimal.valueOf(share * 100).setScale(1, rounding);
    }
}
