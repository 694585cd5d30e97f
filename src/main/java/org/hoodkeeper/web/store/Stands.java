package org.hoodkeeper.web.store;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.people.People;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.store.SetStage;
import org.hoodkeeper.store.SetStep;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Says of a set in one sentence whether it may be handed out. */
@Component
class Stands {

    private final Words words;
    private final ReasonWords reasons;
    private final People people;

    Stands(Words words, ReasonWords reasons, People people) {
        this.words = words;
        this.reasons = reasons;
        this.people = people;
    }

    List<Stand> of(Visit visit, List<ShelfSet> sets) {
        Map<WorkerId, String> names = new HashMap<>();
        people.all(visit.viewer().site()).forEach(worker -> names.put(worker.id(), worker.name()));
        return sets.stream().map(set -> of(set, names)).toList();
    }

    Stand of(Visit visit, ShelfSet set) {
        return of(visit, List.of(set)).get(0);
    }

    /** Where each set is: who has it, or where it lies. */
    Map<SetId, String> places(Visit visit, List<ShelfSet> sets) {
        Map<WorkerId, String> names = new HashMap<>();
        people.all(visit.viewer().site()).forEach(worker -> names.put(worker.id(), worker.name()));
        Map<SetId, String> places = new HashMap<>();
        sets.forEach(set -> places.put(set.id(), place(set, names)));
        return places;
    }

    private String place(ShelfSet set, Map<WorkerId, String> names) {
        if (set.state() == ShelfSet.State.OUT || set.state() == ShelfSet.State.MISSING) {
            return words.say("store.place." + set.state(), name(set.holder(), names), set.since());
        }
        String store = set.data() == null ? null : set.data().store();
        return store == null ? words.say("store.place.unknown") : store;
    }

    private Stand of(ShelfSet set, Map<WorkerId, String> names) {
        List<Reason> barring = set.readiness().barring();
        Reason first = barring.isEmpty() ? null : barring.get(0);
        String proof = proof(set);
        String why = first != null ? reasons.why(first) : set.washing() != null ? proof : null;
        List<SetStep> next = SetStep.next(set);
        String sentence = isOutAndHeld(set)
                ? words.say("store.sentence.OUT.held", set.label(), name(set.holder(), names), why)
                : sentence(set, why, names);
        return new Stand(set, tone(set), sentence, why, next.isEmpty() ? null : next.get(0), proof);
    }

    /** What on record makes its place in life. */
    private @Nullable String proof(ShelfSet set) {
        if (set.stage() == SetStage.CLEANING && set.washing() != null) {
            return words.say(
                    "store.proof.CLEANING",
                    words.say("kinds.WashStepStep." + set.washing().fact().step()),
                    set.washing().from());
        }
        Reason making = SetStage.making(set);
        if (making != null) {
            return reasons.why(making);
        }
        return set.custody() == null
                ? null
                : words.say(
                        "store.proof.custody." + set.custody().fact().claim(),
                        set.custody().from());
    }

    /** Held while somebody has it: it has to come back now. */
    private static boolean isOutAndHeld(ShelfSet set) {
        return set.state() == ShelfSet.State.OUT
                && set.readiness().barring().stream().anyMatch(reason -> reason.kind() == RequirementKind.KIT_HOLD);
    }

    private static String tone(ShelfSet set) {
        if (isOutAndHeld(set)) {
            return "barred";
        }
        return switch (set.state()) {
            case READY -> "clear";
            case LAST_WEARER -> "half";
            case BLOCKED, MISSING, WITHDRAWN -> "barred";
            case OUT -> "none";
        };
    }

    private String sentence(ShelfSet set, @Nullable String why, Map<WorkerId, String> names) {
        String key = "store.sentence." + set.state();
        return switch (set.state()) {
            case WITHDRAWN -> words.say("store.sentence." + set.stage(), set.label());
            case READY -> words.say(key, set.label());
            case LAST_WEARER -> words.say(key, set.label(), name(set.readiness().lastWearer(), names));
            case BLOCKED -> words.say(key, set.label(), why);
            case OUT -> words.say(key, set.label(), name(set.holder(), names), set.since());
            case MISSING -> words.say(key, set.label(), set.since());
        };
    }

    private String name(@Nullable WorkerId worker, Map<WorkerId, String> names) {
        String name = worker == null ? null : names.get(worker);
        return name == null ? words.say("event.somebody") : name;
    }
}
