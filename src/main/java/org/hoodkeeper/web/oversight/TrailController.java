package org.hoodkeeper.web.oversight;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.exchange.Guard;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.Trail;
import org.hoodkeeper.oversight.TrailSort;
import org.hoodkeeper.web.DayText;
import org.hoodkeeper.web.PageAddress;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Who did what: the audit trail, to search and to take along. */
@Controller
class TrailController {

    private static final int ROWS = 50;
    private static final Duration BACK = Duration.ofDays(31);

    private final Trail trail;
    private final TrailWords trailWords;
    private final Names names;
    private final Sheets sheets;
    private final Refusals refusals;

    TrailController(Trail trail, TrailWords trailWords, Names names, Sheets sheets, Refusals refusals) {
        this.trail = trail;
        this.trailWords = trailWords;
        this.names = names;
        this.sheets = sheets;
        this.refusals = refusals;
    }

    @Allowed({Role.OFFICER, Role.ADMINISTRATOR})
    @GetMapping("/sites/{site}/trail")
    String show(Visit visit, @ModelAttribute("asked") TrailForm form, BindingResult shape, Model page) {
        Names.Book book = names.of(visit);
        Trail.Asked asked = asked(
                visit,
                form,
                refusals.day(form.from(), shape, "from"),
                refusals.day(form.until(), shape, "until"),
                book);
        long fitting = trail.count(visit.viewer(), asked);
        int first = (form.number() - 1) * ROWS;
        List<TrailWords.Shown> lines = trail.lines(visit.viewer(), asked, first, ROWS).stream()
                .map(line -> trailWords.shown(visit, line, book))
                .toList();
        long shown = Math.min(fitting, first + (long) lines.size());
        page.addAttribute("lines", lines);
        page.addAttribute("fitting", fitting);
        page.addAttribute("shown", shown);
        page.addAttribute("begin", asked.from());
        page.addAttribute("sorts", TrailSort.openTo(visit.viewer()));
        page.addAttribute("all", visit.viewer().is(Role.OFFICER));
        page.addAttribute(
                "next", shown < fitting && !lines.isEmpty() ? address(visit, form, "", form.number() + 1) : null);
        page.addAttribute("file", address(visit, form, ".csv", 0));
        return "oversight/trail";
    }

    /** @throws Refused {@code findings.day} for a day that is none */
    @Allowed({Role.OFFICER, Role.ADMINISTRATOR})
    @GetMapping("/sites/{site}/trail.csv")
    void take(Visit visit, @ModelAttribute("asked") TrailForm form, HttpServletResponse response) throws IOException {
        Names.Book book = names.of(visit);
        Trail.Asked asked = asked(visit, form, DayText.read(form.from()), DayText.read(form.until()), book);
        response.setContentType("text/csv;charset=UTF-8");
        response.setHeader(
                HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"" + visit.siteCode() + "-trail.csv\"");
        response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
        CSVPrinter printer = new CSVPrinter(
                new OutputStreamWriter(response.getOutputStream(), StandardCharsets.UTF_8), CSVFormat.RFC4180);
        printer.printRecord(TrailWords.header());
        trail.take(visit.viewer(), asked, line -> print(printer, trailWords.shown(visit, line, book)));
        printer.flush();
    }

    private Trail.Asked asked(
            Visit visit, TrailForm form, @Nullable LocalDate firstDay, @Nullable LocalDate lastDay, Names.Book book) {
        Instant now = sheets.now();
        Set<TrailSort> sorts = Stream.of(TrailSort.values()).filter(form::isOf).collect(Collectors.toSet());
        return new Trail.Asked(
                sorts,
                TrailForm.typed(form.who()),
                TrailWords.called(TrailForm.typed(form.about()), book),
                firstDay == null ? now.minus(BACK) : Days.startOf(firstDay, visit.zone()),
                // what happens while the page is made belongs to it
                lastDay == null ? now.plusSeconds(60) : Days.endOf(lastDay, visit.zone()),
                trailWords.text(TrailForm.typed(form.text())));
    }

    private static void print(CSVPrinter printer, TrailWords.Shown shown) {
        Trail.Line line = shown.line();
        try {
            printer.printRecord(Stream.of(
                            line.at(),
                            shown.by(),
                            shown.login(),
                            line.kind(),
                            shown.what(),
                            shown.about().isEmpty() ? line.about() : shown.about(),
                            line.detail(),
                            line.source(),
                            line.link().name().toLowerCase(Locale.ROOT),
                            line.position(),
                            line.id())
                    .map(cell -> cell == null ? "" : Guard.put(cell.toString()))
                    .toList());
        } catch (IOException gone) {
            throw new UncheckedIOException(gone);
        }
    }

    private static String address(Visit visit, TrailForm form, String ending, int number) {
        return PageAddress.of(visit, "/trail" + ending)
                .with("who", form.who())
                .with("sort", form.sort())
                .with("about", form.about())
                .with("from", form.from())
                .with("until", form.until())
                .with("text", form.text())
                .with("page", number > 0 ? number : null)
                .toString();
    }
}
