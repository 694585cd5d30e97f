package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.util.List;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.calculation.measure.MeasurementChain;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.store.MeasuredFlow;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Sight;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Puts measurements into words: how each came out, why one does not count, and what it rested on. */
@Component
class FlowLines {

    private static final String FLOW = "L/min";

    private final Kit kit;
    private final Answers answers;
    private final Words words;
    private final Show show;

    FlowLines(Kit kit, Answers answers, Words words, Show show) {
        this.kit = kit;
        this.answers = answers;
        this.words = words;
        this.show = show;
    }

    List<FlowLine> of(Visit visit, List<MeasuredFlow> measured) {
        return measured.stream().map(one -> of(visit, one)).toList();
    }

    FlowLine of(Visit visit, MeasuredFlow one) {
        return new FlowLine(
                one,
                tone(one),
                result(visit, one),
                words.say("flow.source." + one.version().kind()),
                kit.set(visit.viewer().site(), one.set()).label(),
                kit.instrument(visit.viewer().site(), one.instrument()).code(),
                show.figure(one.shown(), FLOW),
                one.judged() == null
                        ? words.say("flow.unknown")
                        : show.figure(one.judged().corrected(), FLOW),
                Sight.of(visit.viewer(), one.version()),
                error(one),
                rests(visit, one));
    }

    private static String tone(MeasuredFlow one) {
        return switch (one.result()) {
            case PASSED -> "clear";
            case FAILED -> "barred";
            case NOT_ACCEPTED -> "half";
        };
    }

    private String result(Visit visit, MeasuredFlow one) {
        if (one.isAccepted()) {
            return words.say("flow.result." + one.result());
        }
        if (one.calibration() != null && one.yardstick() == null) {
            return words.say("flow.result.noMinimum");
        }
        Told<Calibration> calibration = one.calibration();
        return one.standing() == MeasurementChain.Standing.LAPSED && calibration != null
                ? words.say("flow.result.LAPSED", calibration.fact().lastDay())
                : calibration != null && one.standing() == MeasurementChain.Standing.NOT_CALIBRATED
                        ? words.say("flow.result.UNFIT", Days.of(calibration.from(), visit.zone()))
                        : words.say("flow.result." + one.standing());
    }

    /** What the reading would have been with the error that was found: it tells how bad it may have been, and passes nothing. */
    private @Nullable String error(MeasuredFlow one) {
        if (one.standing() != MeasurementChain.Standing.FOUND_WRONG) {
            return null;
        }
        if (one.withError() == null) {
            return words.say("flow.error.notMeasured");
        }
        BigDecimal corrected = one.withError().corrected();
        return words.say(
                one.isTurned()
                        ? "flow.error.turned"
                        : one.withError().passed() ? "flow.error.still" : "flow.error.failed",
                show.figure(corrected, FLOW));
    }

    private List<Line> rests(Visit visit, MeasuredFlow one) {
        Answers.Lines lines = answers.of("flow.rests").figure("shown", one.shown(), FLOW);
        air(lines, one);
        Told<Calibration> calibration = one.calibration();
        if (calibration != null) {
            lines.said(
                            "calibration",
                            calibration.fact().certificate() == null
                                    ? "flow.rests.calibration.noCertificate"
                                    : "flow.rests.calibration.said",
                            Days.of(calibration.from(), visit.zone()),
                            calibration.fact().lastDay(),
                            calibration.fact().certificate())
                    .said(
                            "scale",
                            "flow.rests.scale.said",
                            show.figure(calibration.fact().celsius(), "°C"),
                            show.figure(calibration.fact().hectopascals(), "hPa"))
                    .figure("factor", calibration.fact().factor(), "");
        }
        judged(lines, one);
        given(lines, one);
        return lines.all();
    }

    private void air(Answers.Lines lines, MeasuredFlow one) {
        if (one.celsius() == null && one.hectopascals() == null) {
            lines.said("air", "flow.rests.air.none");
        } else {
            lines.figure("celsius", one.celsius(), "°C").figure("hectopascals", one.hectopascals(), "hPa");
        }
    }

    private void judged(Answers.Lines lines, MeasuredFlow one) {
        FlowYardstick yardstick = one.yardstick();
        ModelData model = one.model();
        if (yardstick == null || model == null || one.judged() == null) {
            return;
        }
        boolean stated = one.calibration() != null && one.calibration().fact().uncertainty() != null;
        lines.said(
                        "corrected",
                        "flow.rests.corrected.said",
                        show.figure(one.judged().corrected(), FLOW))
                .said(
                        "uncertainty",
                        stated ? "flow.rests.uncertainty.stated" : "flow.rests.uncertainty.assumed",
                        show.figure(yardstick.indicator().uncertainty(), FLOW))
                .figure("atLeast", one.judged().atLeast(), FLOW)
                .said(
                        "minimum",
                        "flow.rests.minimum." + model.flowAt(),
                        show.figure(yardstick.minimum().litresPerMinute(), FLOW))
                .figure("required", yardstick.required(one.celsius(), one.hectopascals()), FLOW);
    }

    /** The result as given on the day, where it was given then. */
    private void given(Answers.Lines lines, MeasuredFlow one) {
        FlowCheck given = one.asGiven();
        if (given != null && given.corrected() != null) {
            lines.said(
                    "given",
                    "flow.rests.given." + given.outcome(),
                    show.figure(given.corrected(), FLOW),
                    given.minimum() == null ? null : show.figure(given.minimum(), FLOW));
        }
    }
}
