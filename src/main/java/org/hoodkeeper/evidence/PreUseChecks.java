package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the wearer found when looking the set over and donning it. */
@Service
@Transactional
public class PreUseChecks {

    private final Telling telling;

    PreUseChecks(Telling telling) {
        this.telling = telling;
    }

    /** These say something of the person or of which set it is, not that the set is broken. */
    private static final Set<PreUseCheck.Item> NOT_THE_SET =
            EnumSet.of(PreUseCheck.Item.RIGHT_SET, PreUseCheck.Item.SKIN_AT_SEAL);

    /** @param hold the hold on the set that a failed item gave; none otherwise */
    public record Done(
            RecordId record, PreUseCheck check, @Nullable RecordId hold) {}

    /**
     * A failed item takes the set out of use in the same entry, except those that concern the person or the choice of set.
     *
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead
     */
    public Done record(
            Author author, SetId set, WorkerId worker, PreUseCheck check, Instant at, @Nullable String sourceId) {
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(check, set, at).item(worker).source(sourceId));
        if (isBroken(check)) {
            drafts.add(Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DEFECT, check.note()), set, at));
        }
        List<RecordId> records = telling.tell(author, drafts, set, worker).records();
        return new Done(records.get(0), check, records.size() > 1 ? records.get(1) : null);
    }

    private static boolean isBroken(PreUseCheck check) {
        return check.items().entrySet().stream()
                .anyMatch(item -> item.getValue() == Outcome.FAIL && !NOT_THE_SET.contains(item.getKey()));
    }
}
