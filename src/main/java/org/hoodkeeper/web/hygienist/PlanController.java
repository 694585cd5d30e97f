package org.hoodkeeper.web.hygienist;

import jakarta.validation.Valid;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.BatteryPlan;
import org.hoodkeeper.calculation.CartridgeLife;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.PublishedWearTime;
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

/** How long a stint may be: batteries and who swaps when, filters and on what their schedule rests, and wear times. */
@Controller
class PlanController {

    private final TaskSheets sheets;
    private final SiteBoards boards;
    private final History history;
    private final KnowledgeClock clock;
    private final Words words;
    private final Show show;
    private final Refusals refusals;

    PlanController(
            TaskSheets sheets,
            SiteBoards boards,
            History history,
            KnowledgeClock clock,
            Words words,
            Show show,
            Refusals refusals) {
        this.sheets = sheets;
        this.boards = boards;
        this.history = history;
        this.clock = clock;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
    }

    /** @param refused why there is no plan; none where there is one */
    public record Battery(String model, @Nullable BatteryPlan plan, String swaps, String checks, String refused) {}

    public record Swap(String person, String number, String set, String model, String when) {}

    /** @param basis who decided it, when and why */
    public record Filter(String model, String use, String opened, String basis) {}

    public record WearTime(String model, String own, List<String> published) {}

    @Allowed({Role.OFFICER, Role.HYGIENIST, Role.SUPERVISOR})
    @GetMapping("/sites/{site}/tasks/{code}/plan")
    String show(
            Visit visit,
            @PathVariable String code,
            @Valid @ModelAttribute("asked") PlanForm asked,
            BindingResult shape,
            Model page) {
        Instant now = clock.now();
        Moment moment = Moment.of(null, false, now);
        TaskSheet sheet = sheets.of(visit.viewer().site(), code, moment);
        PlanForm form = shape.hasErrors() ? PlanForm.usual() : asked.orUsual();
        List<Battery> batteries = sheet.models().stream()
                .filter(line -> line.batteryMinutes() != null)
                .map(line -> battery(line, form))
                .toList();
        List<Swap> swaps = swaps(visit, sheet, moment, batteries, form);
        page.addAttribute("code", sheet.task());
        page.addAttribute("form", form);
        page.addAttribute("batteries", batteries);
        page.addAttribute("swaps", swaps);
        page.addAttribute(
                "sentence",
                swaps.isEmpty()
                        ? words.say("plan.answer.none", sheet.task(), minutes(form.stint()))
                        : words.say("plan.answer", sheet.task(), minutes(form.stint()), swaps.size()));
        page.addAttribute(
                "filters",
                sheet.models().stream()
                        .filter(line -> line.type().filtersRoomAir())
                        .map(line -> filter(visit, line, now))
                        .toList());
        page.addAttribute("thumb", thumb(form, shape));
        page.addAttribute("divided", divided(form, shape));
        page.addAttribute(
                "wearTimes", sheet.models().stream().map(this::wearTime).toList());
        return "hygienist/plan";
    }

    private Battery battery(TaskSheet.ModelLine line, PlanForm form) {
        try {
            BatteryPlan plan = BatteryPlan.of(
                    Duration.ofMinutes(Objects.requireNonNull(line.batteryMinutes())),
                    BigDecimal.valueOf(whole(form.capacity()))
                            .multiply(BigDecimal.valueOf(whole(form.load())))
                            .movePointLeft(4),
                    Duration.ofMinutes(whole(form.reserve())),
                    Duration.ofMinutes(whole(form.stint())));
            return new Battery(line.code(), plan, clock(form, plan.swapBy()), clock(form, plan.checks()), "");
        } catch (Refused refused) {
            return new Battery(line.code(), null, "", "", words.refusal(refused));
        }
    }

    private String clock(PlanForm form, List<Duration> into) {
        return into.isEmpty()
                ? words.say("plan.never")
                : into.stream().map(one -> show.time(start(form).plus(one))).collect(Collectors.joining(", "));
    }

    private static LocalTime start(PlanForm form) {
        return Objects.requireNonNull(form.start());
    }

    /** Everyone at the task with a set whose battery does not last the stint. */
    private List<Swap> swaps(Visit visit, TaskSheet sheet, Moment moment, List<Battery> batteries, PlanForm form) {
        Map<String, BatteryPlan> plans = new HashMap<>();
        batteries.forEach(one -> {
            if (one.plan() != null && !one.plan().swapBy().isEmpty()) {
                plans.put(one.model(), one.plan());
            }
        });
        List<Swap> swaps = new ArrayList<>();
        boards.at(visit.viewer(), moment, sheet.task()).rows().forEach(row -> {
            String model = row.model();
            BatteryPlan plan = model == null ? null : plans.get(model);
            if (row.set() != null && model != null && plan != null) {
                swaps.add(new Swap(
                        row.worker().name(), row.worker().number(), row.set(), model, clock(form, plan.swapBy())));
            }
        });
        return swaps;
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
                use == null ? words.say("plan.filter.undecided") : show.span(Duration.parse(use.value())),
                opened == null ? words.say("plan.filter.undecided") : opened.value(),
                basis.isEmpty() ? words.say("plan.filter.noBasis") : String.join(" ", basis));
    }

    private String basis(Visit visit, InForce.Decided decided, Instant now) {
        History.Version version = history.find(visit.viewer().site(), Objects.requireNonNull(decided.record()), now);
        if (version == null || !(version.told().fact() instanceof SiteDecision whole)) {
            return words.say("plan.filter.noBasis");
        }
        return words.say(
                "plan.filter.basis",
                decided.value(),
                whole.owner() == null ? words.say("exposureSheet.unsigned") : whole.owner(),
                show.instant(version.told().from()),
                whole.reason() == null ? words.say("plan.filter.noReason") : whole.reason());
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
            CartridgeLife.Life life = CartridgeLife.ruleOfThumb(
                    form.ppm(),
                    form.boils(),
                    Objects.requireNonNull(form.workRate()),
                    Objects.requireNonNull(form.humidity()));
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

    private String minutes(@Nullable Integer minutes) {
        return show.span(Duration.ofMinutes(whole(minutes)));
    }

    /** A field that has its usual value where nothing was typed. */
    private static int whole(@Nullable Integer typed) {
        return Objects.requireNonNull(typed);
    }
}
