package org.hoodkeeper.web.hygienist;

import jakarta.validation.Valid;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.RandomDraw;
import org.hoodkeeper.calculation.ZeroDefectSample;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;

/**
 * Whom to look at on the round, and when: drawn at random, so that what is seen may be said of the whole. The address holds all
 * that the draw rests on, with the moment of knowledge: opened again, it draws the same.
 */
@Controller
class RoundController {

    private static final int USUAL_FIRST_HOUR = 6;
    private static final int USUAL_HOURS = 8;
    private static final int USUAL_DAYS = 5;
    private static final BigDecimal USUAL_SHARE = BigDecimal.TEN;

    private final SiteBoards boards;
    private final TaskSheets sheets;
    private final KnowledgeClock clock;
    private final SheetWords sheetWords;
    private final Words words;
    private final Refusals refusals;

    RoundController(
            SiteBoards boards,
            TaskSheets sheets,
            KnowledgeClock clock,
            SheetWords sheetWords,
            Words words,
            Refusals refusals) {
        this.boards = boards;
        this.sheets = sheets;
        this.clock = clock;
        this.sheetWords = sheetWords;
        this.words = words;
        this.refusals = refusals;
    }

    /**
     * @param firstHour the hour of the day at which the shift begins; it may run over midnight
     * @param hours its length
     * @param share per cent of the looks that must not go wrong unseen
     * @param known the moment of knowledge, so that the same people are drawn from
     */
    record RoundForm(
            @Nullable LocalDate from,
            @Nullable @Min(1) @Max(60) Integer days,
            @Nullable @Min(0) @Max(23) Integer firstHour,
            @Nullable @Min(1) @Max(24) Integer hours,
            @Nullable BigDecimal share,
            @Nullable Integer seed,
            @Nullable String known) {

        RoundForm orUsual(LocalDate today, Instant now) {
            LocalDate first = from == null ? today : from;
            return new RoundForm(
                    first,
                    days == null ? USUAL_DAYS : days,
                    firstHour == null ? USUAL_FIRST_HOUR : firstHour,
                    hours == null ? USUAL_HOURS : hours,
                    share == null ? USUAL_SHARE : share,
                    seed == null ? (int) first.toEpochDay() : seed,
                    known == null || known.isBlank() ? now.toString() : known);
        }

        Instant knownAt(Instant now) {
            try {
                Instant typed = Instant.parse(Objects.requireNonNull(known));
                return typed.isAfter(now) ? now : typed;
            } catch (DateTimeException unreadable) {
                throw new Refused("moment.at.unreadable", known);
            }
        }
    }

    /** One look. */
    public record Look(Worker worker, LocalDate day, LocalTime hour) {}

    @Allowed({Role.OFFICER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/tasks/{code}/round")
    String show(
            Visit visit,
            @PathVariable String code,
            @Valid @ModelAttribute("asked") RoundForm asked,
            BindingResult shape,
            Model page) {
        Instant now = clock.now();
        LocalDate today = Days.of(now, visit.zone());
        RoundForm form = (shape.hasErrors() ? new RoundForm(null, null, null, null, null, null, null) : asked)
                .orUsual(today, now);
        TaskSheet sheet = sheets.of(visit.viewer().site(), code, Moment.of(null, false, now));
        page.addAttribute("code", sheet.task());
        page.addAttribute("form", form);
        page.addAttribute("practice", sheetWords.practice(sheet));
        try {
            List<Look> all = slots(visit, sheet.task(), form, now);
            List<Look> drawn = all.isEmpty() ? List.of() : drawn(all, form);
            page.addAttribute("looks", drawn);
            page.addAttribute("of", all.size());
            page.addAttribute(
                    "sentence",
                    words.say(
                            "round.answer",
                            sheet.task(),
                            drawn.size(),
                            all.size(),
                            Objects.requireNonNull(form.share())));
        } catch (Refused refused) {
            refusals.show(refused, shape, refused.code().contains("share") ? "share" : "known");
            page.addAttribute("looks", List.of());
            page.addAttribute("of", 0);
            page.addAttribute("sentence", words.say("round.answer.none", sheet.task()));
        }
        return "hygienist/round";
    }

    private static List<Look> drawn(List<Look> all, RoundForm form) {
        int size = ZeroDefectSample.size(
                all.size(), Objects.requireNonNull(form.share()).movePointLeft(2));
        return RandomDraw.of(all, size, Objects.requireNonNull(form.seed())).stream()
                .sorted(Comparator.comparing(Look::day)
                        .thenComparing(Look::hour)
                        .thenComparing(look -> look.worker().number()))
                .toList();
    }

    /**
     * Each person posted to the task, each day, each hour of the shift, in an order that can be had again. An hour that the clock
     * leaves out is no hour of the shift, and one that it gives twice is one.
     */
    private List<Look> slots(Visit visit, String task, RoundForm form, Instant now) {
        LocalDate from = Objects.requireNonNull(form.from());
        ZoneId zone = visit.zone();
        LocalDateTime start = from.atTime(Objects.requireNonNull(form.firstHour()), 0);
        List<Worker> people = boards
                .at(
                        visit.viewer(),
                        new Moment(start.atZone(zone).toInstant(), form.knownAt(now), Moment.View.AS_KNOWN_NOW),
                        task)
                .rows()
                .stream()
                .map(row -> row.worker())
                .sorted(Comparator.comparing(Worker::number))
                .toList();
        List<Look> slots = new ArrayList<>();
        for (Worker worker : people) {
            for (int day = 0; day < Objects.requireNonNull(form.days()); day++) {
                for (int hour = 0; hour < Objects.requireNonNull(form.hours()); hour++) {
                    LocalDateTime at = start.plusDays(day).plusHours(hour);
                    if (!zone.getRules().getValidOffsets(at).isEmpty()) {
                        slots.add(new Look(worker, at.toLocalDate(), at.toLocalTime()));
                    }
                }
            }
        }
        return slots;
    }
}
