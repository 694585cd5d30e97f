package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Reports of symptoms, and their reviews by the health role. The note is clinical text. */
@Service
@Transactional
public class Symptoms {

    private final Telling telling;
    private final Known known;

    Symptoms(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /** @throws Refused {@code symptom.note.missing}, {@code ledger.future} */
    public RecordId report(Author author, WorkerId worker, String note, Instant at, @Nullable String sourceId) {
        SymptomReport report = new SymptomReport(SymptomReport.Step.REPORTED, note);
        return telling.tell(author, Draft.of(report, worker, at).source(sourceId), worker);
    }

    /**
     * Closes a report: the health role has looked at it.
     *
     * @throws NotFound {@code record.unknown} when there is no such report
     * @throws Refused {@code symptom.report.reviewed} when it has been reviewed, {@code symptom.at.early} when the review lies
     *     before the report
     */
    public RecordId review(
            Author author, RecordId report, @Nullable String note, Instant at, @Nullable String sourceId) {
        Told<SymptomReport> told = known.record(author.site(), SymptomReport.class, Kind.SYMPTOM_REPORT, report);
        WorkerId worker = new WorkerId(told.subject());
        telling.take(author.site(), worker);
        if (told.fact().step() != SymptomReport.Step.REPORTED) {
            throw new NotFound("record.unknown", report);
        }
        if (known.isDone(author.site(), Kind.SYMPTOM_REPORT, report, SymptomReport.Step.REVIEWED)) {
            throw new Refused("symptom.report.reviewed", told.from());
        }
        if (at.isBefore(told.from())) {
            throw new Refused("symptom.at.early", at, told.from());
        }
        SymptomReport review = new SymptomReport(SymptomReport.Step.REVIEWED, note);
        return telling.tell(author, Draft.of(review, worker, at).item(report).source(sourceId), worker);
    }

    /** Reports that nobody has reviewed, oldest first; notes left out. */
    @Transactional(readOnly = true)
    public List<Told<SymptomReport>> waiting(SiteId site) {
        return known.open(
                site,
                SymptomReport.class,
                Kind.SYMPTOM_REPORT,
                SymptomReport.Step.REPORTED,
                SymptomReport.Step.REVIEWED);
    }
}
