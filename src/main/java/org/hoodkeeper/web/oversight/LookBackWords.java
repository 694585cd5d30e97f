package org.hoodkeeper.web.oversight;

import java.util.stream.Collectors;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.store.Fault;
import org.hoodkeeper.store.LookBacks;
import org.hoodkeeper.web.PlaceWords;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Names;
import org.springframework.stereotype.Component;

/** Says what failed. */
@Component
class LookBackWords {

    private final Words words;
    private final PlaceWords places;

    LookBackWords(Words words, PlaceWords places) {
        this.words = words;
        this.places = places;
    }

    /** The set, instrument, supply or notice. */
    String about(LookBacks.Whole whole, Names.Book names) {
        if (whole.failure().kind() == Kind.RECALL && whole.failure().told().fact() instanceof Recall recall) {
            return recall.notice() == null
                    ? words.say("kinds.Kind.RECALL")
                    : words.say("lookBack.notice", recall.notice());
        }
        return names.of(whole.failure().told().subject());
    }

    /** What was wrong with it, and how that came to light. */
    String what(LookBacks.Whole whole) {
        String kind = words.say("kinds.Kind." + whole.failure().kind());
        if (whole.looked().isEmpty()) {
            return kind;
        }
        String faults = whole.looked().stream()
                .map(one -> fault(one.fault()))
                .distinct()
                .collect(Collectors.joining(", "));
        return words.say("lookBack.what", faults, kind);
    }

    String fault(Fault fault) {
        String mode = words.say("kinds.FailureMode." + fault.mode());
        if (fault.place() != null) {
            return words.say("lookBack.fault", mode, places.of(fault.place()));
        }
        boolean named = fault.item() != null && fault.mode().name().equals("DAMAGE");
        return named ? words.say("lookBack.fault", mode, words.say("stop.item." + fault.item())) : mode;
    }
}
