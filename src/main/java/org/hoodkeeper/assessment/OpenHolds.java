package org.hoodkeeper.assessment;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Told;

/** Holds that nothing had released. */
final class OpenHolds {

    private OpenHolds() {}

    static List<Told<Hold>> of(Judging judging, List<Told<Hold>> holds) {
        List<Told<Hold>> begun = judging.begun(holds);
        if (begun.isEmpty()) {
            return begun;
        }
        Set<UUID> released = new HashSet<>();
        for (Told<Hold> told : begun) {
            if (told.fact().step() == Hold.Step.RELEASED && told.item() != null) {
                released.add(told.item());
            }
        }
        List<Told<Hold>> open = new ArrayList<>();
        for (Told<Hold> told : begun) {
            if (told.fact().step() == Hold.Step.PLACED
                    && told.isTrueAt(judging.at)
                    && !released.contains(told.id().value())) {
                open.add(told);
                judging.watch(told.until());
            }
        }
        return open;
    }
}
