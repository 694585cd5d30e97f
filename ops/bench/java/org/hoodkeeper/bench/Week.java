package org.hoodkeeper.bench;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.SplittableRandom;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;

/**
 * What is told in one week, in the order of telling: forms one by one, and the gate's and wash-house's lists by the file of the
 * next morning. One form in a hundred is told days late; one flow reading in fifty is corrected later.
 */
final class Week {

    /** Who is told, and gives each record its id. */
    @FunctionalInterface
    interface Ear {
        List<RecordId> tell(Instant at, Author.Via via, List<Draft> drafts, boolean withdrawal);
    }

    private static final Instant NEVER = Instant.parse("2999-01-01T00:00:00Z");

    private record Telling(Instant at, Author.Via via, Draft draft, boolean withdrawal) {}

    private final Ear ledger;
    private final SplittableRandom random;
    private final Instant end;
    private final PriorityQueue<Telling> queue = new PriorityQueue<>(Comparator.comparing(Telling::at));
    private final List<List<Draft>> files = new ArrayList<>();

    /** @param end nothing is told later */
    Week(Ear ledger, long seed, Instant end) {
        this.ledger = ledger;
        this.random = new SplittableRandom(seed);
        this.end = end;
        for (int day = 0; day < 7; day++) {
            files.add(new ArrayList<>());
        }
    }

    void told(Instant at, Author.Via via, Draft draft) {
        boolean late = random.nextInt(100) == 0;
        queue.add(new Telling(late ? at.plus(Duration.ofDays(2 + random.nextInt(5))) : at, via, draft, false));
    }

    /** @param day of the week, from 0 */
    void byFile(int day, Draft draft) {
        files.get(day).add(draft);
    }

    /** Writes everything told before the week's end. */
    void write(Instant start) {
        for (int day = 0; day < 7; day++) {
            Instant morning = start.plus(Duration.ofDays(day + 1)).plus(Duration.ofHours(5));
            Instant at = morning.isBefore(end) ? morning : end.minusSeconds(60);
            forms(at);
            if (!files.get(day).isEmpty()) {
                ledger.tell(at, Author.Via.IMPORT, files.get(day), false);
                files.get(day).clear();
            }
        }
    }

    /** Writes what is still to be told. */
    void finish() {
        forms(NEVER);
    }

    private void forms(Instant until) {
        while (!queue.isEmpty() && queue.peek().at().isBefore(until)) {
            Telling telling = queue.remove();
            Instant at = telling.at().isBefore(end) ? telling.at() : end.minusSeconds(30);
            if (telling.draft().from().isAfter(at)) {
                continue;
            }
            RecordId id = ledger.tell(at, telling.via(), List.of(telling.draft()), telling.withdrawal())
                    .get(0);
            correct(telling, id, at);
        }
    }

    private void correct(Telling telling, RecordId id, Instant at) {
        if (telling.draft().corrects() != null || !(telling.draft().fact() instanceof FlowCheck check)) {
            return;
        }
        int ticket = random.nextInt(1000);
        if (ticket >= 20) {
            return;
        }
        Instant then = at.plus(Duration.ofDays(1 + random.nextInt(20)));
        @Nullable Draft corrected = with(telling.draft(), check).correcting(id, "Misread by two");
        if (then.isBefore(end)) {
            queue.add(new Telling(then, Author.Via.FORM, corrected, ticket == 0));
        }
    }

    private static Draft with(Draft draft, FlowCheck check) {
        FlowCheck right = new FlowCheck(
                check.reading().add(BigDecimal.valueOf(2)),
                check.instrument(),
                check.celsius(),
                check.hectopascals(),
                check.corrected() == null ? null : check.corrected().add(BigDecimal.valueOf(2)),
                check.minimum(),
                check.uncertainty(),
                check.outcome());
        return new Draft(
                right,
                draft.subject(),
                draft.item(),
                draft.scope(),
                draft.from(),
                draft.until(),
                null,
                null,
                draft.sourceId());
    }
}
