package org.hoodkeeper.evidence;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Entry;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Flow checks of sets with an indicator: judged when told, and kept with the yardstick that was used. */
@Service
@Transactional
public class FlowChecks {

    private final Telling telling;
    private final Known known;
    private final Kit kit;
    private final Holds holds;

    FlowChecks(Telling telling, Known known, Kit kit, Holds holds) {
        this.telling = telling;
        this.known = known;
        this.kit = kit;
        this.holds = holds;
    }

    /**
     * What the indicator showed.
     *
     * @param litresPerMinute 0 to 600 L/min
     * @param celsius temperature of the air at the reading, −40 to 60; none where not measured
     * @param hectopascals absolute pressure there, 500 to 1,100 hPa; none where not measured
     */
    public record Reading(
            BigDecimal litresPerMinute,
            InstrumentId instrument,
            @Nullable BigDecimal celsius,
            @Nullable BigDecimal hectopascals) {}

    /** @param hold the hold on the set that a failed check gave; none for a passed one */
    public record Done(
            RecordId record, FlowCheck check, @Nullable RecordId hold) {

        public boolean passed() {
            return check.outcome() == Outcome.PASS;
        }
    }

    /**
     * Judges and records. A failed check takes the set out of use in the same entry; its look-back is derived from it.
     *
     * @throws Refused as {@link #judge}; {@code ledger.future} when it lies ahead
     */
    public Done record(Author author, SetId set, Reading reading, Instant at, @Nullable String sourceId) {
        telling.take(author.site(), set);
        FlowCheck check = judge(author.site(), set, reading, at);
        Draft draft = Draft.of(check, set, at).source(sourceId);
        if (check.outcome() == Outcome.PASS) {
            return new Done(telling.tell(author, draft, set, reading.instrument()), check, null);
        }
        Draft hold = Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DEFECT, null), set, at);
        Entry entry = telling.tell(author, List.of(draft, hold), set, reading.instrument());
        return new Done(entry.records().get(0), check, entry.records().get(1));
    }

    /**
     * How the reading comes out, with nothing recorded: for a page that shows it first, and for files.
     *
     * @throws Refused {@code flowCheck.reading.range}, {@code flowCheck.celsius.range}, {@code flowCheck.hectopascals.range};
     *     {@code flowCheck.set.unknownThen} before the set was received, {@code flowCheck.set.noFlow} where its model has no
     *     flow; {@code flowCheck.instrument.} with {@code uncalibrated}, {@code failed}, {@code lapsed},
     *     {@code held} or {@code outOfTolerance} where the instrument was not valid then
     */
    @Transactional(readOnly = true)
    public FlowCheck judge(SiteId site, SetId set, Reading reading, Instant at) {
        CareShapes.reading(reading.litresPerMinute(), reading.celsius(), reading.hectopascals());
        ModelData model = known.modelOf(site, set, at);
        if (model == null) {
            throw new Refused("flowCheck.set.unknownThen", at);
        }
        Calibration calibration = valid(site, reading.instrument(), at);
        FlowYardstick yardstick =
                FlowYardstick.of(calibration, model, known.rules(site).at(at));
        if (yardstick == null) {
            throw new Refused("flowCheck.set.noFlow", model.name());
        }
        FlowReading.Judgement judgement =
                yardstick.judge(reading.litresPerMinute(), reading.celsius(), reading.hectopascals());
        return new FlowCheck(
                reading.litresPerMinute(),
                reading.instrument(),
                reading.celsius(),
                reading.hectopascals(),
                judgement.corrected(),
                yardstick.minimum().litresPerMinute(),
                yardstick.indicator().uncertainty(),
                judgement.passed() ? Outcome.PASS : Outcome.FAIL);
    }

    private Calibration valid(SiteId site, InstrumentId instrument, Instant at) {
        String code = kit.instrument(site, instrument).code();
        if (holds.isHeld(site, instrument, at)) {
            throw new Refused("flowCheck.instrument.held", code, at);
        }
        ZoneId zone = known.zone(site);
        List<Told<Calibration>> calibrations = known.calibrations(site, instrument);
        Told<Calibration> valid = FlowYardstick.validAt(calibrations, at, zone);
        if (valid == null) {
            throw whyInvalid(code, calibrations, at, zone);
        }
        return valid.fact();
    }

    private static Refused whyInvalid(String code, List<Told<Calibration>> newestFirst, Instant at, ZoneId zone) {
        Told<Calibration> next = null;
        for (Told<Calibration> told : newestFirst) {
            if (told.from().isAfter(at)) {
                next = told;
            } else if (told.fact().outcome() == Outcome.FAIL) {
                return new Refused("flowCheck.instrument.failed", code, Days.of(told.from(), zone));
            } else if (Days.of(at, zone).isAfter(told.fact().lastDay())) {
                return new Refused(
                        "flowCheck.instrument.lapsed", code, told.fact().lastDay());
            } else {
                return new Refused(
                        "flowCheck.instrument.outOfTolerance", code, Days.of(next == null ? at : next.from(), zone));
            }
        }
        return new Refused("flowCheck.instrument.uncalibrated", code, Days.of(at, zone));
    }
}
