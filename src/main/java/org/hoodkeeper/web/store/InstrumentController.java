package org.hoodkeeper.web.store;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Instrument;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.store.FlowCourses;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.store.MeasuredFlow;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** An instrument's page: may its readings count, and until when. */
@Controller
class InstrumentController {

    private final Kit kit;
    private final Indicators indicators;
    private final SetHistory history;
    private final Desk desk;
    private final Answers answers;
    private final Things things;
    private final FlowCourses courses;
    private final FlowLines lines;
    private final Words words;

    InstrumentController(
            Kit kit,
            Indicators indicators,
            SetHistory history,
            Desk desk,
            Answers answers,
            Things things,
            FlowCourses courses,
            FlowLines lines,
            Words words) {
        this.kit = kit;
        this.indicators = indicators;
        this.history = history;
        this.desk = desk;
        this.answers = answers;
        this.things = things;
        this.courses = courses;
        this.lines = lines;
        this.words = words;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/instruments/{code}")
    String show(
            Visit visit, @PathVariable String code, @RequestParam(required = false) @Nullable UUID done, Model page) {
        Instrument instrument = kit.instrument(visit.viewer().site(), code);
        Instant now = desk.now();
        List<History.Version> versions = history.versions(visit, instrument.id());
        page.addAttribute("instrument", instrument);
        page.addAttribute("store", visit.viewer().is(Role.STOREKEEPER));
        Told<Calibration> valid = FlowYardstick.validAt(
                indicators.calibrations(visit.viewer().site(), instrument.id(), now), now, visit.zone());
        page.addAttribute("valid", valid);
        page.addAttribute("held", things.held(visit, instrument.id()));
        page.addAttribute("figures", valid == null ? List.of() : figures(valid.fact()));
        List<MeasuredFlow> measured = courses.of(visit.viewer().site(), instrument.id(), now);
        page.addAttribute("readings", readings(measured));
        page.addAttribute("measured", lines.of(visit, measured));
        page.addAttribute("happenings", history.happenings(visit, versions));
        Told<?> told = done == null ? null : history.told(visit, instrument.id(), done);
        page.addAttribute("done", told == null ? null : history.words(visit, told));
        return "store/instrument";
    }

    /** How many of its readings count, and how many would have turned with the error that was found. */
    private String readings(List<MeasuredFlow> measured) {
        long refused = measured.stream().filter(one -> !one.isAccepted()).count();
        long turned = measured.stream().filter(MeasuredFlow::isTurned).count();
        if (measured.isEmpty()) {
            return words.say("instrument.readings.none");
        }
        if (refused == 0) {
            return words.say("instrument.readings.count", measured.size());
        }
        return words.say("instrument.readings.refused", measured.size(), refused)
                + (turned == 0 ? "" : " " + words.say("instrument.readings.turned", turned));
    }

    private List<Line> figures(Calibration calibration) {
        return answers.of("calibration")
                .figure("factor", calibration.factor(), "")
                .figure("uncertainty", calibration.uncertainty(), "L/min")
                .figure("celsius", calibration.celsius(), "°C")
                .figure("hectopascals", calibration.hectopascals(), "hPa")
                .all();
    }

    @ExceptionHandler
    ModelAndView unknown(NotFound nothing) {
        return ScanController.nothing(String.valueOf(nothing.arguments()[0]));
    }
}
