package org.hoodkeeper.web.hygienist;

import jakarta.validation.Valid;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.BatteryTime;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.calculation.BatteryPlan;
import org.hoodkeeper.calculation.CartridgeLife;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.PublishedWearTime;
import org.hoodkeeper.rules.Term;
import org.hoodkeeper.store.BatteryBook;
import org.hoodkeeper.web.ReasonWords;
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

/**
 * How long a stint may be: batteries and who swaps when, filters and on what their schedule rests, and wear times. Planned with
 * those alone who may go in, and with models that are enough; who and what is left out is said.
 */
@Controller
class PlanController {

    private final TaskSheets sheets;
    private final SiteBoards boards;
    private final History history;
    private final KnowledgeClock clock;
    private final ReasonWords reasons;
    private final Words words;
    private final Show show;
    private final Refusals refusals;
    private final BatteryBook book;

    PlanController(
            TaskSheets sheets,
            SiteBoards boards,
            History history,
            KnowledgeClock clock,
            ReasonWords reasons,
            Words words,
            Show show,
            Refusals refusals,
            BatteryBook book) {
        this.sheets = sheets;
        this.boards = boards;
        this.history = history;
        this.clock = clock;
        this.reasons = reasons;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
        this.book = book;
    }

    /** @param refused why there is no plan; none where there is one */
    public record Battery(String model, @Nullable BatteryPlan plan, String swaps, String checks, String refused) {

        private boolean isSwapped() {
            return plan != null && !plan.swapBy().isEmpty();
        }
    }

    public record Swap(String person, String number, String set, String model, String when) {}

    /** @param why what stands in the way of planning with this person */
    public record Left(String person, String number, String why) {}

    /** @param goes how many may go in with the set they have */
    private record People(int goes, List<Swap> swaps, List<Left> left) {}

    /** @param basis who decided it, when and why */
    public record Filter(String model, String use, String opened, String basis) {}

    public record WearTime(String model, String own, List<String> published) {}

    @Allowed({Role.OFFICER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/tasks/{code}/plan")
    String show(
            Visit visit,
            @PathVariable String code,
            @Valid @ModelAttribute("plan") @Nullable PlanForm form,
            BindingResult shape,
            Model page) {
        Instant now = clock.now();
        Moment moment = Moment.of(null, false, now);
        TaskSheet sheet = sheets.of(visit.viewer().site(), code, moment);
        page.addAttribute("code", sheet.task());
        if (form == null || shape.hasErrors()) {
            page.addAttribute("planned", false);
            page.addAttribute("sentence", words.say("plan.answer.unread"));
            return "hygienist/plan";
        }
        List<TaskSheet.ModelLine> enough =
                sheet.models().stream().filter(line -> line.stand().isEnough()).toList();
        List<Battery> batteries = enough.stream()
                .filter(line -> line.batteryMinutes() != null)
                .map(line -> battery(line, form))
                .toList();
        List<BoardRow> rows = boards.at(visit.viewer(), moment, sheet.task()).rows();
        People people = people(rows, batteries, times(visit, rows, form, now), form);
        page.addAttribute("planned", true);
        page.addAttribute("batteries", batteries);
        page.addAttribute("swaps", people.swaps());
        page.addAttribute("left", people.left());
        page.addAttribute(
                "unfit",
                sheet.models().stream()
                        .filter(line -> !line.stand().isEnough())
                        .map(line -> words.say(
                                "plan.unfit.model", line.code(), words.say("exposureSheet.stand." + line.stand())))
                        .toList());
        page.addAttribute("sentence", sentence(sheet, form, people));
        page.addAttribute(
                "filters",
                enough.stream()
                        .filter(line -> line.type().filtersRoomAir())
                        .map(line -> filter(visit, line, now))
                        .toList());
        page.addAttribute("thumb", thumb(form, shape));
        page.addAttribute("divided", divided(form, shape));
        page.addAttribute("wearTimes", enough.stream().map(this::wearTime).toList());
        return "hygienist/plan";
    }

    /** Who swaps, who goes without a swap, and how many are left out. */
    private String sentence(TaskSheet sheet, PlanForm form, People people) {
        String goes = people.goes() == 0
                ? words.say("plan.answer.nobody", sheet.task())
                : people.swaps().isEmpty()
                        ? words.say("plan.answer.none", sheet.task(), minutes(form.stint()))
                        : words.counted("plan.answer", people.swaps().size(), sheet.task(), minutes(form.stint()));
        return people.left().isEmpty()
                ? goes
                : goes + " " + words.counted("plan.left.count", people.left().size());
    }

    private Battery battery(TaskSheet.ModelLine line, PlanForm form) {
        try {
            BatteryPlan plan = BatteryPlan.of(
                    Duration.ofMinutes(Objects.requireNonNull(line.batteryMinutes())),
                    BigDecimal.valueOf(form.capacity())
                            .multiply(BigDecimal.valueOf(form.load()))
                            .movePointLeft(4),
                    Duration.ofMinutes(form.reserve()),
                    Duration.ofMinutes(form.stint()));
            return new Battery(line.code(), plan, clock(form, plan.swapBy()), clock(form, plan.checks()), "");
        } catch (Refused refused) {
            return new Battery(line.code(), null, "", "", words.refusal(refused));
        }
    }

    private String clock(PlanForm form, List<Duration> into) {
        return into.isEmpty()
                ? words.say("plan.never")
                : into.stream().map(one -> show.time(form.start().plus(one))).collect(Collectors.joining(", "));
    }

    /**
     * Everyone posted to the task: with whom the stint can be planned, and who has to stay out of it. Judged as of now, as the
     * board does, since the stint begins with whoever may go in.
     */
    private People people(List<BoardRow> rows, List<Battery> batteries, Map<String, BatteryTime> times, PlanForm form) {
        Map<String, Battery> byModel =
                batteries.stream().collect(Collectors.toMap(Battery::model, Function.identity()));
        List<Swap> swaps = new ArrayList<>();
        List<Left> left = new ArrayList<>();
        int goes = 0;
        for (BoardRow row : rows) {
            Battery battery = ofSet(row, row.model() == null ? null : byModel.get(row.model()), times, form);
            String why = leftOut(row, battery);
            if (why != null) {
                left.add(new Left(row.worker().name(), row.worker().number(), why));
                continue;
            }
            goes++;
            if (battery != null && battery.isSwapped()) {
                swaps.add(new Swap(
                        row.worker().name(),
                        row.worker().number(),
                        Objects.requireNonNull(row.set()),
                        battery.model(),
                        battery.swaps()));
            }
        }
        return new People(goes, swaps, left);
    }

    private Map<String, BatteryTime> times(Visit visit, List<BoardRow> rows, PlanForm form, Instant now) {
        Set<String> sets = new HashSet<>();
        for (BoardRow row : rows) {
            if (row.set() != null) {
                sets.add(row.set());
            }
        }
        return sets.isEmpty() ? Map.of() : book.times(visit.viewer().site(), sets, left(form), now);
    }

    private static BigDecimal left(PlanForm form) {
        return BigDecimal.valueOf(form.load()).movePointLeft(2);
    }

    /** What was measured on the set's own battery, of several on the weakest, counts before what the model is said to run. */
    private @Nullable Battery ofSet(
            BoardRow row, @Nullable Battery ofModel, Map<String, BatteryTime> times, PlanForm form) {
        BatteryTime time = row.set() == null ? null : times.get(row.set());
        Told<BatteryTest> test = time == null ? null : time.test();
        Duration measured = time == null ? null : time.measured();
        if (ofModel == null || test == null || measured == null) {
            return ofModel;
        }
        try {
            BatteryPlan plan = BatteryPlan.of(
                    measured,
                    test.fact().filterLoaded() ? BigDecimal.ONE : left(form),
                    Duration.ofMinutes(form.reserve()),
                    Duration.ofMinutes(form.stint()));
            String swaps = words.say(
                    "plan.swap.measured",
                    clock(form, plan.swapBy()),
                    test.fact().ran(),
                    test.from());
            return new Battery(ofModel.model(), plan, swaps, clock(form, plan.checks()), "");
        } catch (Refused refused) {
            return new Battery(ofModel.model(), null, "", "", words.refusal(refused));
        }
    }

    /** Why this person cannot be planned with; none where they may go in with the set in hand. */
    private @Nullable String leftOut(BoardRow row, @Nullable Battery battery) {
        Assessment.Glance glance = row.glance();
        if (glance == null) {
            return words.say("plan.left.unjudged");
        }
        if (glance.verdict() == Verdict.NOT_CLEARED) {
            return glance.first() == null
                    ? words.say("plan.left.unjudged")
                    : words.say("plan.left.barred", reasons.requirement(glance.first()), reasons.why(glance.first()));
        }
        if (row.set() == null) {
            return words.say("plan.left.noSet");
        }
        return battery != null && battery.plan() == null ? battery.refused() : null;
    }

    private Filter filter(Visit visit, TaskSheet.ModelLine line, Instant now) {
        InForce.Decided use = line.filterUse();
        InForce.Decided opened = line.filterOpened();
        List<String> basis = new ArrayList<>();
        for (InForce.Decided one : new InForce.Decided[] {use, opened}) {
            if (one != null && one.record() != null) {
                basis.add(basis(visit, one, now));
            }
        }
        return new Filter(
                line.code(),
                use == null ? words.say("plan.filter.undecided") : inWords(use.value()),
                opened == null ? words.say("plan.filter.undecided") : inWords(opened.value()),
                basis.isEmpty() ? words.say("plan.filter.noBasis") : String.join(" ", basis));
    }

    private String basis(Visit visit, InForce.Decided decided, Instant now) {
        History.Version version = history.find(visit.viewer().site(), Objects.requireNonNull(decided.record()), now);
        if (version == null || !(version.told().fact() instanceof SiteDecision whole)) {
            return words.say("plan.filter.noBasis");
        }
        return words.say(
                "plan.filter.basis",
                inWords(decided.value()),
                whole.owner() == null ? words.say("exposureSheet.unsigned") : whole.owner(),
                show.instant(version.told().from()),
                whole.reason() == null ? words.say("plan.filter.noReason") : whole.reason());
    }

    /** 40 h, 6 months; the life of a filter is counted in hours, however many. @param period ISO 8601, as the site decided it */
    private String inWords(String period) {
        if (period.startsWith("PT")) {
            Duration span = Duration.parse(period);
            return span.toMinutesPart() == 0 ? words.say("plan.filter.hours", span.toHours()) : show.span(span);
        }
        Term term = Term.of(period);
        return words.counted("plan.filter." + term.unit(), term.amount());
    }

    /** The rule of thumb, as a check only; empty where nothing was asked. */
    private String thumb(PlanForm form, BindingResult shape) {
        if (form.ppm() == null && form.boils() == null) {
            return "";
        }
        try {
            if (form.ppm() == null || form.boils() == null) {
                throw new Refused("plan.thumb.both");
            }
            CartridgeLife.Life life =
                    CartridgeLife.ruleOfThumb(form.ppm(), form.boils(), form.workRate(), form.humidity());
            return words.say("plan.thumb.says", show.figure(life.estimate()), show.figure(life.use()));
        } catch (Refused refused) {
            refusals.show(refused, shape, form.ppm() == null || refused.code().endsWith("ppm") ? "ppm" : "boils");
            return words.refusal(refused);
        }
    }

    private String divided(PlanForm form, BindingResult shape) {
        if (form.life() == null && form.safety() == null) {
            return "";
        }
        BigDecimal life = form.life();
        BigDecimal safety = form.safety();
        if (life == null || life.signum() <= 0 || safety == null || safety.compareTo(BigDecimal.ONE) < 0) {
            Refused refused = new Refused("plan.life.both");
            refusals.show(refused, shape, "life");
            return words.refusal(refused);
        }
        return words.say("plan.life.says", show.figure(life.divide(safety, 1, RoundingMode.FLOOR)));
    }

    private WearTime wearTime(TaskSheet.ModelLine line) {
        return new WearTime(
                line.code(),
                line.longestWear() == null
                        ? words.say("exposureSheet.wear.none")
                        : words.say("exposureSheet.wear", show.span(Duration.parse(line.longestWear()))),
                PublishedWearTime.of(line.type()).stream().map(this::published).toList());
    }

    private String published(PublishedWearTime one) {
        String limits = one.perShift() == null
                ? words.say("plan.wear.noLimit")
                : one.minutes() == null
                        ? words.say("plan.wear.shift", minutes(one.perShift()))
                        : one.rest() == null
                                ? words.say("plan.wear.noRest", minutes(one.minutes()), minutes(one.perShift()))
                                : words.say(
                                        "plan.wear.all",
                                        minutes(one.minutes()),
                                        minutes(one.rest()),
                                        minutes(one.perShift()));
        return words.say(
                "plan.wear.line",
                words.say("plan.wear.source." + one.source()),
                words.say("plan.wear.device." + one.device()),
                limits,
                words.say("kinds.Mark." + one.source().mark()));
    }

    private String minutes(int minutes) {
        return show.span(Duration.ofMinutes(minutes));
    }
}
