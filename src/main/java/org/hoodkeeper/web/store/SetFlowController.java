package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.IsoFields;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.trend.FlowTrend;
import org.hoodkeeper.calculation.trend.StepChange;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.FlowCourse;
import org.hoodkeeper.store.FlowCourses;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.store.MeasuredFlow;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** The flow of a set through time: by when it must be served, and what each check rested on. */
@Controller
class SetFlowController {

    private final Desk desk;
    private final FlowCourses courses;
    private final Indicators indicators;
    private final FlowPicture picture;
    private final FlowLines lines;
    private final Answers answers;
    private final Words words;
    private final Show show;
    private final PlaceWords places;

    SetFlowController(
            Desk desk,
            FlowCourses courses,
            Indicators indicators,
            FlowPicture picture,
            FlowLines lines,
            Answers answers,
            Words words,
            Show show,
            PlaceWords places) {
        this.desk = desk;
        this.courses = courses;
        this.indicators = indicators;
        this.picture = picture;
        this.lines = lines;
        this.answers = answers;
        this.words = words;
        this.show = show;
        this.places = places;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/sets/{label}/flow")
    String show(
            Visit visit, @PathVariable String label, @RequestParam(required = false) @Nullable UUID check, Model page) {
        ShelfSet set = desk.set(visit, label);
        Instant now = desk.now();
        FlowCourse course = courses.of(visit.viewer().site(), set.id(), minimum(visit, set, now), now);
        String sentence = sentence(visit, set, course);
        List<FlowLine> measured = new ArrayList<>(lines.of(visit, course.measured()));
        Collections.reverse(measured);
        page.addAttribute("set", set);
        page.addAttribute("sentence", sentence);
        page.addAttribute("plot", picture.of(course, words.say("flow.plot.title", set.label()), visit.zone()));
        page.addAttribute("measured", measured);
        page.addAttribute("says", says(visit, course));
        page.addAttribute(
                "one",
                measured.stream()
                        .filter(line -> line.of().version().told().id().value().equals(check))
                        .findFirst()
                        .orElse(null));
        return "store/set-flow";
    }

    private @Nullable BigDecimal minimum(Visit visit, ShelfSet set, Instant now) {
        return set.modelData() == null
                ? null
                : indicators.minimum(visit.viewer().site(), set.modelData(), now);
    }

    private String sentence(Visit visit, ShelfSet set, FlowCourse course) {
        BigDecimal minimum = course.minimum();
        MeasuredFlow last = course.last();
        if (minimum == null) {
            return words.say("flow.answer.noFlow", set.label());
        }
        if (last == null) {
            return words.say("flow.answer.none", set.label());
        }
        LocalDate day = Days.of(last.at(), visit.zone());
        String flow = show.figure(last.drawn(), "L/min");
        if (last.result() == MeasuredFlow.Result.FAILED) {
            return words.say("flow.answer.failed", set.label(), flow, day, minimum);
        }
        StepChange step = course.step();
        if (step != null) {
            return words.say(
                    step.size() < 0 ? "flow.answer.drop" : "flow.answer.rise",
                    set.label(),
                    tenth(Math.abs(step.size())),
                    Days.of(course.instant(step.at()), visit.zone()),
                    flow,
                    minimum);
        }
        FlowTrend trend = course.trend();
        if (trend == null) {
            return words.say(
                    "flow.answer.few",
                    set.label(),
                    flow,
                    day,
                    minimum,
                    course.since().size(),
                    FlowTrend.FEWEST);
        }
        return ahead(visit, set, course, trend, flow, minimum);
    }

    private String ahead(
            Visit visit, ShelfSet set, FlowCourse course, FlowTrend trend, String flow, BigDecimal minimum) {
        Instant act = course.actBefore();
        if (act == null) {
            return words.say("flow.answer.steady", set.label(), flow, minimum);
        }
        BigDecimal fall = FlowPicture.perWeek(trend).negate();
        if (!act.isAfter(course.now())) {
            return words.say("flow.answer.now", set.label(), fall, minimum);
        }
        LocalDate by = lastDay(act, visit);
        return words.say("flow.answer.by", set.label(), by, by.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR), fall, minimum);
    }

    /** The last whole day before. */
    private static LocalDate lastDay(Instant before, Visit visit) {
        return Days.of(before, visit.zone()).minusDays(1);
    }

    private static BigDecimal tenth(double value) {
        return BigDecimal.valueOf(value).setScale(1, RoundingMode.HALF_UP);
    }

    /** What the lines rest on and where they lead. */
    private List<Line> says(Visit visit, FlowCourse course) {
        FlowTrend trend = course.trend();
        if (trend == null) {
            return List.of();
        }
        Answers.Lines said = answers.of("flow.says");
        Told<?> change = course.lastChange();
        if (change != null) {
            said.said(
                    "since",
                    change.fact() instanceof PartChange ? "flow.says.since.part" : "flow.says.since.repair",
                    Days.of(change.from(), visit.zone()),
                    places.of(change.scope()));
        }
        said.said("count", "flow.says.count.said", trend.points().size())
                .said("slope", "flow.says.slope.said", show.figure(FlowPicture.perWeek(trend), "L/min"));
        meets(said, "robust", trend.robustMeets(), course, visit);
        meets(said, "bound", trend.boundMeets(), course, visit);
        return said.all();
    }

    private static void meets(
            Answers.Lines said, String field, @Nullable Double meets, FlowCourse course, Visit visit) {
        if (meets == null || meets > course.day(course.now()) + FlowCourse.HORIZON) {
            said.said(field, "flow.says.never");
        } else {
            said.day(field, Days.of(course.instant(meets), visit.zone()));
        }
    }

    @ExceptionHandler
    ModelAndView unknown(NotFound nothing) {
        return ScanController.nothing(String.valueOf(nothing.arguments()[0]));
    }
}
