package org.hoodkeeper.store;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.assessment.AirJudgement;
import org.hoodkeeper.calculation.parts.FailureMode;
import org.hoodkeeper.calculation.parts.LookBackWindow.Check;
import org.hoodkeeper.calculation.parts.LookBackWindow.Refusal;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;

/**
 * Whether a check would have caught a fault: it looks at this, passed, with a valid instrument, by somebody trained on the model.
 * What looks at what is common practice, no source; a wearer who was never trained on the model is not competent (duties on
 * training before use).
 *
 * @param measured every flow of the sets in question, by its record
 * @param trained since when each worker is trained on a model
 */
record CaughtBy(DataThen data, AirThen air, Map<RecordId, MeasuredFlow> measured, Map<Training, Instant> trained) {

    record Training(UUID worker, ModelId model) {}

    /** @return none where the record is no check that anybody would think of for this fault */
    @Nullable Check check(Fault fault, History.Version version) {
        Told<?> told = version.told();
        return switch (version.kind()) {
            case FLOW_CHECK -> ofSet(fault) ? verdict(told, flowCheck(fault, told)) : null;
            case EXAMINATION -> ofSet(fault) ? verdict(told, examination(fault, told)) : null;
            case PRE_USE_CHECK -> ofSet(fault) ? verdict(told, wearers(fault, told)) : null;
            case GUIDED_WORK -> guided(fault, told);
            case PART_CHANGE ->
                fault.mode() != FailureMode.PART && fault.isAt(told.scope()) ? verdict(told, null) : null;
            case CLEANING -> fault.mode() == FailureMode.DISINFECTION ? verdict(told, cleaning(told)) : null;
            case AIR_TEST -> fault.mode() == FailureMode.AIR ? verdict(told, airTest(told)) : null;
            case CALIBRATION ->
                fault.mode() == FailureMode.INSTRUMENT
                        ? verdict(told, ((Calibration) told.fact()).outcome() == Outcome.PASS ? null : Refusal.FAILED)
                        : null;
            default -> null;
        };
    }

    private @Nullable Refusal airTest(Told<?> told) {
        AirJudgement judgement = air.judged(told);
        if (judgement.failed()) {
            return Refusal.FAILED;
        }
        return judgement.unknown().isEmpty() ? null : Refusal.ITEM_NOT_LOOKED_AT;
    }

    private static boolean ofSet(Fault fault) {
        return switch (fault.mode()) {
            case LOW_FLOW, DAMAGE, BATTERY, PLACEMENT -> true;
            case DISINFECTION, AIR, PART, INSTRUMENT -> false;
        };
    }

    private static Check verdict(Told<?> told, @Nullable Refusal refusal) {
        return new Check(told.id(), told.from(), refusal);
    }

    private @Nullable Refusal flowCheck(Fault fault, Told<?> told) {
        return fault.mode() == FailureMode.LOW_FLOW ? flow(told) : Refusal.OTHER_FAULT;
    }

    private @Nullable Refusal flow(Told<?> told) {
        MeasuredFlow flow = measured.get(told.id());
        if (flow == null) {
            return Refusal.NO_READING;
        }
        return switch (flow.result()) {
            case PASSED -> null;
            case FAILED -> Refusal.BELOW_MINIMUM;
            case NOT_ACCEPTED -> Refusal.INSTRUMENT_NOT_VALID;
        };
    }

    private @Nullable Refusal examination(Fault fault, Told<?> told) {
        Examination examination = (Examination) told.fact();
        if (fault.mode() == FailureMode.BATTERY || fault.mode() == FailureMode.PLACEMENT) {
            return Refusal.OTHER_FAULT;
        }
        if (examination.outcome() == Outcome.FAIL) {
            return Refusal.FAILED;
        }
        return fault.mode() == FailureMode.LOW_FLOW
                ? reading(told, examination.reading() != null, examination.indicator() != null)
                : null;
    }

    private @Nullable Refusal reading(Told<?> told, boolean read, boolean named) {
        if (!read) {
            return Refusal.NO_READING;
        }
        return named ? flow(told) : Refusal.INSTRUMENT_NOT_NAMED;
    }

    private @Nullable Refusal wearers(Fault fault, Told<?> told) {
        PreUseCheck check = (PreUseCheck) told.fact();
        if (!isTrained(told)) {
            return Refusal.NOT_COMPETENT;
        }
        if (fault.mode() == FailureMode.PLACEMENT) {
            return of(check.placement());
        }
        if (fault.mode() == FailureMode.LOW_FLOW) {
            Outcome looked = check.items().get(PreUseCheck.Item.FLOW);
            if (looked == Outcome.FAIL) {
                return Refusal.FAILED;
            }
            return looked == null && check.reading() == null
                    ? Refusal.ITEM_NOT_LOOKED_AT
                    : reading(told, check.reading() != null, check.indicator() != null);
        }
        // where nobody said what it was, only whoever takes the set apart would have seen it
        return of(fault.item() == null ? null : check.items().get(fault.item()));
    }

    private static @Nullable Refusal of(@Nullable Outcome looked) {
        if (looked == null) {
            return Refusal.ITEM_NOT_LOOKED_AT;
        }
        return looked == Outcome.FAIL ? Refusal.FAILED : null;
    }

    private boolean isTrained(Told<?> told) {
        SetData set = data.set(new SetId(told.subject()), told.from());
        if (told.item() == null || set == null) {
            return false;
        }
        Instant since = trained.get(new Training(told.item(), set.model()));
        return since != null && !since.isAfter(told.from());
    }

    /** An inspection names the sort of part of each of its steps. */
    private @Nullable Check guided(Fault fault, Told<?> told) {
        GuidedWork work = (GuidedWork) told.fact();
        if (fault.mode() != FailureMode.DAMAGE || work.guide() != Guide.INSPECTION) {
            return null;
        }
        if (fault.isOfWhole()) {
            return verdict(told, work.passed() ? null : Refusal.FAILED);
        }
        List<Outcome> looked = fault.parts().stream()
                .map(part -> work.answers().get(part.name()))
                .toList();
        if (looked.isEmpty() || looked.stream().allMatch(one -> one == null)) {
            return verdict(told, Refusal.ITEM_NOT_LOOKED_AT);
        }
        return verdict(told, looked.contains(Outcome.FAIL) ? Refusal.FAILED : null);
    }

    private @Nullable Refusal cleaning(Told<?> told) {
        Cleaning cleaning = (Cleaning) told.fact();
        if (cleaning.method() == Cleaning.Method.WIPE) {
            return Refusal.WIPE_ONLY;
        }
        ModelData model = data.model(new SetId(told.subject()), told.from());
        return model != null && cleaning.disinfects(model) ? null : Refusal.NOT_AS_LISTED;
    }
}
