package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Defects of sets, from when they were found until they were mended. */
@Service
@Transactional
public class Defects {

    private final Telling telling;
    private final Known known;
    private final Holds holds;

    Defects(Telling telling, Known known, Holds holds) {
        this.telling = telling;
        this.known = known;
        this.holds = holds;
    }

    /** @param part the place concerned. @throws Refused {@code defect.note.missing} when neither part nor note is given */
    public RecordId found(
            Author author,
            SetId set,
            @Nullable String part,
            @Nullable String note,
            Instant at,
            @Nullable String sourceId) {
        Defect defect = new Defect(Defect.Step.FOUND, part, note);
        return telling.tell(author, Draft.of(defect, set, at).source(sourceId), set);
    }

    /**
     * @throws NotFound {@code record.unknown} when there is no such defect
     * @throws Refused {@code defect.found.mended} when it was mended before, {@code defect.at.early} before it was found, {@code
     *     defect.set.impounded} while it is kept as found
     */
    public RecordId mended(
            Author author, RecordId found, @Nullable String note, Instant at, @Nullable String sourceId) {
        Told<Defect> told = known.record(author.site(), Defect.class, Kind.DEFECT, found);
        SetId set = new SetId(told.subject());
        telling.take(author.site(), set);
        if (told.fact().step() != Defect.Step.FOUND) {
            throw new NotFound("record.unknown", found);
        }
        if (known.isDone(author.site(), Kind.DEFECT, found, Defect.Step.MENDED)) {
            throw new Refused("defect.found.mended", told.from());
        }
        if (at.isBefore(told.from())) {
            throw new Refused("defect.at.early", at, told.from());
        }
        holds.requireNotImpounded(author.site(), set, at, "defect.set.impounded");
        Defect mended = new Defect(Defect.Step.MENDED, told.fact().part(), note);
        return telling.tell(author, Draft.of(mended, set, at).item(found).source(sourceId), set);
    }
}
