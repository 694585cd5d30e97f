package org.hoodkeeper.web.store;

import java.util.List;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.ModelAndView;

/** Finds instruments and air supplies by their codes, and what holds them. */
@Component
class Things {

    private final Kit kit;
    private final Holds holds;
    private final Words words;

    Things(Kit kit, Holds holds, Words words) {
        this.kit = kit;
        this.holds = holds;
        this.words = words;
    }

    /** @throws NotFound {@code instrument.unknown} */
    Thing instrument(Visit visit, String code) {
        return new Thing(
                "instruments", code, kit.instrument(visit.viewer().site(), code).id());
    }

    /** @throws NotFound {@code supply.unknown} */
    Thing supply(Visit visit, String code) {
        return new Thing(
                "supplies", code, kit.supply(visit.viewer().site(), code).id());
    }

    /** The holds that lie on it, newest first, to choose from. */
    List<Choice> held(Visit visit, Id id) {
        return holds.open(visit.viewer().site(), id).stream()
                .map(told -> Choice.named(told.id().toString(), said(told)))
                .toList();
    }

    /** @throws NotFound {@code record.unknown} when that hold does not lie on it */
    String named(Visit visit, Id id, String record) {
        return holds.open(visit.viewer().site(), id).stream()
                .filter(told -> told.id().toString().equals(record))
                .map(this::said)
                .findFirst()
                .orElseThrow(() -> new NotFound("record.unknown", record));
    }

    ModelAndView about(ModelAndView page, Thing thing) {
        return page.addObject("thing", thing);
    }

    private String said(Told<Hold> told) {
        return words.say("thing.held", told.fact().why(), told.from());
    }
}
