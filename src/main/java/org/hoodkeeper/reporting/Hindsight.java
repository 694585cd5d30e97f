package org.hoodkeeper.reporting;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.Site;
import org.springframework.stereotype.Component;

/**
 * A past moment twice, as known then and as known now. Judged a second time are only those of whom, or of whose things,
 * something was told since that may turn what held then; of everybody where a rule set, a limit or a decision came since.
 */
@Component
class Hindsight {

    private final Rounds rounds;
    private final News news;
    private final RuleShelf rules;

    Hindsight(Rounds rounds, News news, RuleShelf rules) {
        this.rounds = rounds;
        this.news = news;
        this.rules = rules;
    }

    /** Both in the order of the workers, and both as seen from the door. */
    record Both(List<Standing> then, List<Standing> known) {}

    static Moment then(Instant at) {
        return new Moment(at, at, Moment.View.AS_KNOWN_THEN);
    }

    static Moment known(Instant at, Instant now) {
        return new Moment(at, now, Moment.View.NOW);
    }

    Both judge(Site site, Instant at, Instant now, List<Worker> workers) {
        List<Standing> then = rounds.judge(site, then(at), workers);
        Set<UUID> told = rules.givenBetween(at, now).isEmpty()
                ? news.of(site.id(), at, now, Rounds.wear(at).until()).orElse(null)
                : null;
        if (told == null || told.contains(site.id().value())) {
            return new Both(then, rounds.judge(site, known(at, now), workers));
        }
        List<Worker> concerned = then.stream()
                .filter(standing -> standing.isConcernedBy(told))
                .map(Standing::worker)
                .toList();
        Map<WorkerId, Standing> anew = new HashMap<>();
        rounds.judge(site, known(at, now), concerned)
                .forEach(standing -> anew.put(standing.worker().id(), standing));
        return new Both(
                then,
                then.stream()
                        .map(standing -> anew.getOrDefault(standing.worker().id(), standing))
                        .toList());
    }
}
