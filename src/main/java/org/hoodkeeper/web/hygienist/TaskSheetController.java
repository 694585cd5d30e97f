package org.hoodkeeper.web.hygienist;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.BetweenWorkers;
import org.hoodkeeper.calculation.ComplianceTest;
import org.hoodkeeper.calculation.ExposureStatistics;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.web.Plot;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;

/** Is the hood enough? Every task at a glance, and the assessment sheet of one. */
@Controller
class TaskSheetController {

    /** The preliminary test of EN 689 asks for three. */
    private static final int FEWEST = 3;

    private final TaskSheets sheets;
    private final KnowledgeClock clock;
    private final Plots plots;
    private final Words words;
    private final Show show;
    private final Refusals refusals;

    TaskSheetController(
            TaskSheets sheets, KnowledgeClock clock, Plots plots, Words words, Show show, Refusals refusals) {
        this.sheets = sheets;
        this.clock = clock;
        this.plots = plots;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
    }

    /** @param fit how well a lognormal line goes through the results, in words @param times one for each unit */
    public record Figures(
            TaskSheet.Samples samples,
            String units,
            List<Figure> figures,
            String conclusion,
            String fit,
            String workers,
            List<Plot> times,
            @Nullable Plot paper) {}

    public record Figure(String name, String value, boolean decides) {}

    @Allowed({Role.OFFICER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/tasks")
    String all(Visit visit, Model page) {
        Instant now = clock.now();
        List<TaskSheet> all = sheets.all(visit.viewer().site(), Moment.of(null, false, now));
        long unknown = all.stream().filter(sheet -> sheet.ratio() == null).count();
        page.addAttribute("sheets", all);
        page.addAttribute("sentence", words.say("exposureSheet.all.answer", all.size(), unknown));
        return "hygienist/tasks";
    }

    @Allowed({Role.OFFICER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/tasks/{code}/sheet")
    String one(
            Visit visit,
            @PathVariable String code,
            @ModelAttribute("asked") SheetForm asked,
            BindingResult shape,
            Model page) {
        Instant now = clock.now();
        Moment moment = moment(visit, asked, shape, now);
        if (moment == null) {
            page.addAttribute(
                    "code",
                    sheets.of(visit.viewer().site(), code, Moment.of(null, false, now))
                            .task());
            return "hygienist/sheet-unread";
        }
        TaskSheet sheet = sheets.of(visit.viewer().site(), code, moment);
        page.addAttribute("sheet", sheet);
        page.addAttribute("code", sheet.task());
        page.addAttribute("moment", moment);
        page.addAttribute("sentence", sentence(sheet));
        page.addAttribute("both", moment.isPast(now) ? both(visit, code, moment, now) : null);
        page.addAttribute("hygienist", visit.viewer().is(Role.HYGIENIST));
        page.addAttribute("mayOpen", visit.viewer().isAny(Role.HYGIENIST, Role.OFFICER));
        page.addAttribute(
                "samples",
                sheet.samples().stream()
                        .map(samples -> figures(sheet, samples, visit))
                        .toList());
        return "hygienist/sheet";
    }

    /** A past moment: what was known then beside what is known of it now. */
    private String both(Visit visit, String code, Moment moment, Instant now) {
        TaskSheet then = sheets.of(visit.viewer().site(), code, moment.knownAt(moment.at()));
        TaskSheet known = sheets.of(visit.viewer().site(), code, moment.knownAt(now));
        return words.say("exposureSheet.both", show.instant(moment.at()), ratio(then), ratio(known));
    }

    private String ratio(TaskSheet sheet) {
        return sheet.ratio() == null ? words.say("exposureSheet.unknown") : show.figure(shown(sheet.ratio()));
    }

    /** None where it cannot be read: a sheet of another moment would be taken for the one that was asked for. */
    private @Nullable Moment moment(Visit visit, SheetForm asked, BindingResult shape, Instant now) {
        try {
            return asked.moment().moment(visit.zone(), now);
        } catch (Refused refused) {
            refusals.show(refused, shape, "at");
            return null;
        }
    }

    private String sentence(TaskSheet sheet) {
        if (sheet.basis() == null) {
            return words.say("exposureSheet.answer.none", sheet.task());
        }
        if (sheet.ratio() == null) {
            return sheet.enough().isEmpty()
                    ? words.say("exposureSheet.answer.unknown", sheet.task())
                    : words.say("exposureSheet.answer.unknown.named", sheet.task(), sheet.enough());
        }
        List<String> enough = codes(sheet, true);
        List<String> not = codes(sheet, false);
        String ratio = show.figure(shown(sheet.ratio()));
        if (enough.isEmpty()) {
            return words.say("exposureSheet.answer.nothing", sheet.task(), ratio);
        }
        return not.isEmpty()
                ? words.say("exposureSheet.answer.all", sheet.task(), ratio, enough)
                : words.say("exposureSheet.answer", sheet.task(), ratio, enough, not);
    }

    private static List<String> codes(TaskSheet sheet, boolean enough) {
        return sheet.models().stream()
                .filter(line -> line.stand().isEnough() == enough)
                .map(TaskSheet.ModelLine::code)
                .toList();
    }

    /** Three digits, never rounded down. */
    static BigDecimal shown(BigDecimal ratio) {
        int scale = Math.max(0, 3 - (ratio.precision() - ratio.scale()));
        return ratio.setScale(Math.min(scale, Math.max(ratio.scale(), 0)), RoundingMode.CEILING);
    }

    private Figures figures(TaskSheet sheet, TaskSheet.Samples samples, Visit visit) {
        List<String> units = samples.results().stream()
                .map(told -> told.fact().unit())
                .distinct()
                .toList();
        return new Figures(
                samples,
                String.join("; ", units.stream().map(show::unit).toList()),
                lines(sheet, samples),
                conclusion(sheet, samples),
                fit(samples),
                workers(samples),
                units.stream()
                        .map(unit -> plots.throughTime(sheet, samples, unit, visit.zone()))
                        .toList(),
                samples.points().size() < 3 ? null : plots.onPaper(sheet, samples));
    }

    private List<Figure> lines(TaskSheet sheet, TaskSheet.Samples samples) {
        ExposureStatistics of = samples.statistics();
        if (of == null) {
            return List.of();
        }
        String unit = Plots.unit(samples);
        return List.of(
                figure("count", show.count(of.count()), false),
                figure("below", show.count(of.below()), false),
                figure("geometricMean", with(of.geometricMean(), unit), false),
                figure("geometricDeviation", show.figure(ExposureStatistics.shown(of.geometricDeviation())), false),
                figure("MEAN", with(of.mean(), unit), is(sheet, samples, ExposureStatistics.Statistic.MEAN)),
                figure("P95", with(of.p95(), unit), is(sheet, samples, ExposureStatistics.Statistic.P95)),
                figure("UTL95_70", with(of.utl70(), unit), is(sheet, samples, ExposureStatistics.Statistic.UTL95_70)),
                figure("UTL95_95", with(of.utl95(), unit), is(sheet, samples, ExposureStatistics.Statistic.UTL95_95)));
    }

    private Figure figure(String name, String value, boolean decides) {
        return new Figure(words.say("exposureSheet.statistic." + name), value, decides);
    }

    private String with(double value, String unit) {
        return show.figure(ExposureStatistics.shown(value), unit);
    }

    private static boolean is(TaskSheet sheet, TaskSheet.Samples samples, ExposureStatistics.Statistic statistic) {
        return sheet.statistic() == statistic && sheet.isDecidedBy(samples);
    }

    private String conclusion(TaskSheet sheet, TaskSheet.Samples samples) {
        ComplianceTest test = samples.compliance();
        if (test == null) {
            return samples.limit() == null
                    ? words.say("exposureSheet.compliance.noLimit")
                    : samples.results().size() < FEWEST || samples.refused() == null
                            ? words.say("exposureSheet.compliance.none")
                            : words.say("exposureSheet.compliance.refused", words.refusal(samples.refused()));
        }
        String said = words.say("exposureSheet.compliance." + test.kind() + "." + test.result(), test.count());
        return samples.refused() == null ? said : said + " " + words.refusal(samples.refused());
    }

    /** Whether the group may be judged as one. */
    private String workers(TaskSheet.Samples samples) {
        BetweenWorkers workers = samples.workers();
        if (workers == null) {
            return words.say(
                    "exposureSheet.workers.none", words.refusal(Objects.requireNonNull(samples.workersRefused())));
        }
        BigDecimal share = SheetWords.percent(workers.share(), RoundingMode.HALF_UP);
        if (workers.test() == BetweenWorkers.Test.GROUP) {
            return words.say("exposureSheet.workers.GROUP", share, workers.workers());
        }
        BigDecimal limit = samples.limitValue();
        String said = words.say("exposureSheet.workers.INDIVIDUAL", share, workers.workers());
        if (limit == null) {
            return said;
        }
        double figure = limit.doubleValue();
        return said + " "
                + words.say(
                        workers.keeps(figure) ? "exposureSheet.workers.keeps" : "exposureSheet.workers.over",
                        SheetWords.percent(workers.shareOver(figure), RoundingMode.CEILING));
    }

    private String fit(TaskSheet.Samples samples) {
        if (samples.fit() == null) {
            return words.say("exposureSheet.fit.none");
        }
        BigDecimal p = BigDecimal.valueOf(samples.fit().p()).setScale(3, RoundingMode.HALF_UP);
        BigDecimal w = BigDecimal.valueOf(samples.fit().w()).setScale(3, RoundingMode.HALF_UP);
        return words.say(samples.fit().isDoubtful() ? "exposureSheet.fit.doubtful" : "exposureSheet.fit.good", w, p);
    }
}
