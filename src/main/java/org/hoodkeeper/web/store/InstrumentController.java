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
import org.hoodkeeper.store.Indicators;
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

    InstrumentController(
            Kit kit, Indicators indicators, SetHistory history, Desk desk, Answers answers, Things things) {
        this.kit = kit;
        this.indicators = indicators;
        this.history = history;
        this.desk = desk;
        this.answers = answers;
        this.things = things;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/instruments/{code}")
    String show(
            Visit visit, @PathVariable String code, @RequestParam(required = false) @Nullable UUID done, Model page) {
        Instrument instrument = kit.instrument(visit.viewer().site(), code);
        Instant now = desk.now();
        List<History.Version> versions = history.versions(visit, instrument.id());
        page.addAttribute("instrument", instrument);
        Told<Calibration> valid = FlowYardstick.validAt(
                indicators.calibrations(visit.viewer().site(), instrument.id(), now), now, visit.zone());
        page.addAttribute("valid", valid);
        page.addAttribute("held", things.held(visit, instrument.id()));
        page.addAttribute("figures", valid == null ? List.of() : figures(valid.fact()));
        page.addAttribute("happenings", history.happenings(visit, versions));
        Told<?> told = done == null ? null : history.told(visit, instrument.id(), done);
        page.addAttribute("done", told == null ? null : history.words(visit, told));
        return "store/instrument";
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
