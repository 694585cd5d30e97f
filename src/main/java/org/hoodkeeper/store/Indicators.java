package org.hoodkeeper.store;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.assessment.FlowMinimum;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Instrument;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The instruments that may measure a flow now, and what each must show. */
@Service
@Transactional(readOnly = true)
public class Indicators {

    /** More versions of one instrument's calibrations than anyone makes. */
    private static final int MOST = 500;

    private final Kit kit;
    private final History history;
    private final SiteRegister sites;
    private final RulesAtSite rules;
    private final Holds holds;

    Indicators(Kit kit, History history, SiteRegister sites, RulesAtSite rules, Holds holds) {
        this.kit = kit;
        this.history = history;
        this.sites = sites;
        this.rules = rules;
        this.holds = holds;
    }

    /**
     * An instrument that is valid.
     *
     * @param lastDay last day of its calibration
     * @param required the lowest reading that passes at the calibration's own temperature and pressure, L/min, rounded up
     */
    public record Indicator(
            InstrumentId id,
            String code,
            LocalDate lastDay,
            @Nullable BigDecimal required) {}

    /** Every instrument of the site that is valid and not held, by code. @param model what is to be measured; none for no figure */
    public List<Indicator> valid(SiteId siteId, @Nullable ModelData model, Instant at) {
        Site site = sites.get(siteId);
        InForce inForce = rules.at(siteId, at);
        List<Indicator> valid = new ArrayList<>();
        for (Instrument instrument : kit.instruments(siteId)) {
            Told<Calibration> calibration =
                    FlowYardstick.validAt(calibrations(siteId, instrument.id(), at), at, site.zone());
            if (calibration != null && !holds.isHeld(siteId, instrument.id(), at)) {
                FlowYardstick yardstick = model == null ? null : FlowYardstick.of(calibration.fact(), model, inForce);
                valid.add(new Indicator(
                        instrument.id(),
                        instrument.code(),
                        calibration.fact().lastDay(),
                        yardstick == null ? null : yardstick.required(null, null)));
            }
        }
        return valid;
    }

    /**
     * The lowest reading that passes in that air, L/min, rounded up; none where the instrument is not valid or the model has no
     * flow.
     *
     * @throws org.hoodkeeper.kernel.Refused when temperature or pressure lie outside of what the formula can mean
     */
    public @Nullable BigDecimal required(
            SiteId siteId,
            InstrumentId instrument,
            ModelData model,
            @Nullable BigDecimal celsius,
            @Nullable BigDecimal hectopascals,
            Instant at) {
        Site site = sites.get(siteId);
        Told<Calibration> calibration = FlowYardstick.validAt(calibrations(siteId, instrument, at), at, site.zone());
        FlowYardstick yardstick =
                calibration == null ? null : FlowYardstick.of(calibration.fact(), model, rules.at(siteId, at));
        return yardstick == null ? null : yardstick.required(celsius, hectopascals);
    }

    /** What a set of the model must give at that instant, L/min; none for a device without a flow. */
    public @Nullable BigDecimal minimum(SiteId siteId, ModelData model, Instant at) {
        FlowMinimum minimum = FlowMinimum.of(model, rules.at(siteId, at));
        return minimum == null ? null : minimum.litresPerMinute();
    }

    /** The calibrations of an instrument as known now, newest first. */
    public List<Told<Calibration>> calibrations(SiteId site, InstrumentId instrument, Instant at) {
        return of(site, instrument, Kind.CALIBRATION, at);
    }

    /** The holds on an instrument and their releases as known now, newest first. */
    List<Told<Hold>> holds(SiteId site, InstrumentId instrument, Instant at) {
        return of(site, instrument, Kind.HOLD, at);
    }

    private <F extends Fact> List<Told<F>> of(SiteId site, InstrumentId instrument, Kind kind, Instant at) {
        List<Told<F>> all = new ArrayList<>();
        for (History.Version version : history.of(site, instrument, Set.of(kind), at, MOST)) {
            if (version.isCurrent()) {
                @SuppressWarnings("unchecked")
                Told<F> told = (Told<F>) version.told();
                all.add(told);
            }
        }
        return all;
    }
}
