package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.stream.Collectors;
import org.hoodkeeper.facts.Acceptance;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What a record says, in a short line: result and figure, never a name or free text but the wearer's. */
@Component
class EventWords {

    private final Words words;
    private final Show show;
    private final PlaceWords places;

    EventWords(Words words, Show show, PlaceWords places) {
        this.words = words;
        this.show = show;
        this.places = places;
    }

    /** @param worker the name of the person whom the record names; none where it names nobody */
    String of(Told<?> told, @Nullable String worker) {
        Kind kind = Kind.of(told.fact());
        return switch (kind) {
            case FLOW_CHECK -> flow((FlowCheck) told.fact());
            case EXAMINATION -> say(kind, ((Examination) told.fact()).outcome());
            case CLEANING -> cleaning((Cleaning) told.fact());
            case PART_CHANGE ->
                words.say("event.PART_CHANGE", places.of(told.scope()), ((PartChange) told.fact()).part());
            case DEFECT -> part(kind, (Defect) told.fact());
            case HOLD -> say(kind, ((Hold) told.fact()).step(), ((Hold) told.fact()).why());
            case CUSTODY -> say(kind, ((Custody) told.fact()).claim(), name(worker));
            case PRE_USE_CHECK ->
                say(kind, ((PreUseCheck) told.fact()).passed() ? Outcome.PASS : Outcome.FAIL, name(worker));
            case WEAR -> say(kind, ((Wear) told.fact()).step(), name(worker));
            case CALIBRATION -> say(kind, ((Calibration) told.fact()).outcome(), ((Calibration) told.fact()).lastDay());
            case AIR_TEST -> say(kind, ((AirTest) told.fact()).outcome(), ((AirTest) told.fact()).edition());
            case SUPPLY_MOVE -> words.say("event.SUPPLY_MOVE", ((SupplyMove) told.fact()).place());
            case BATTERY_TEST ->
                words.say("event.BATTERY_TEST", Duration.ofMinutes(((BatteryTest) told.fact()).minutes()));
            case PURIFIER_TAG -> words.say("event.PURIFIER_TAG");
            case SET -> words.say("event.SET", ((SetData) told.fact()).size());
            case GUIDED_WORK -> guided((GuidedWork) told.fact(), told.scope());
            case ACCEPTANCE -> acceptance((Acceptance) told.fact());
            case STOCK_USE -> stock((StockUse) told.fact(), told.scope());
            case WASH_STEP -> words.say("kinds.WashStepStep." + ((WashStep) told.fact()).step());
            case RECALL_DECISION -> words.say("event.RECALL_DECISION");
            default -> words.say("event.other");
        };
    }

    private String flow(FlowCheck check) {
        BigDecimal flow = check.corrected() == null ? check.reading() : check.corrected();
        return say(Kind.FLOW_CHECK, check.outcome(), show.figure(flow, "L/min"));
    }

    private String guided(GuidedWork work, @Nullable String changed) {
        String what = words.say("event.GUIDED_WORK." + work.guide(), places.of(changed));
        return say(Kind.GUIDED_WORK, work.passed() ? Outcome.PASS : Outcome.FAIL, what);
    }

    private String stock(StockUse use, @Nullable String item) {
        String lot = use.lot() == null ? words.say("store.parts.noLot") : words.say("store.parts.lot", use.lot());
        return say(Kind.STOCK_USE, use.use(), item, lot);
    }

    private String acceptance(Acceptance acceptance) {
        String wrong = acceptance.answers().entrySet().stream()
                .filter(answer -> answer.getValue() == Outcome.FAIL)
                .map(answer -> words.say("acceptance.point." + answer.getKey()))
                .collect(Collectors.joining("; "));
        return say(Kind.ACCEPTANCE, acceptance.accepted() ? Outcome.PASS : Outcome.FAIL, wrong);
    }

    private String cleaning(Cleaning cleaning) {
        return say(Kind.CLEANING, cleaning.method(), cleaning.product() == null ? "" : cleaning.product());
    }

    private String part(Kind kind, Defect defect) {
        return say(kind, defect.step(), places.of(defect.part()));
    }

    private String name(@Nullable String worker) {
        return worker == null ? words.say("event.somebody") : worker;
    }

    private String say(Kind kind, Enum<?> variant, @Nullable Object... arguments) {
        return words.say("event." + kind + "." + variant.name(), arguments);
    }
}
