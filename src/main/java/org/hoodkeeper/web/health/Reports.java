package org.hoodkeeper.web.health;

import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Symptoms;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.sheet.Person;
import org.hoodkeeper.web.sheet.Persons;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Reports of symptoms with their notes: for the health role's pages alone. */
@Component
class Reports {

    private final Symptoms symptoms;
    private final History history;
    private final Persons persons;
    private final Sheets sheets;
    private final AuditTrail audit;

    Reports(Symptoms symptoms, History history, Persons persons, Sheets sheets, AuditTrail audit) {
        this.symptoms = symptoms;
        this.history = history;
        this.persons = persons;
        this.sheets = sheets;
        this.audit = audit;
    }

    public record Waiting(RecordId id, Person person, Instant at) {}

    public record Report(
            RecordId id,
            Person person,
            Instant at,
            @Nullable String note) {}

    /** Oldest first: who has waited longest stands at the top. That they were seen is noted. */
    List<Waiting> waiting(Visit visit) {
        List<Waiting> waiting = symptoms.waiting(visit.viewer().site()).stream()
                .map(told -> new Waiting(told.id(), persons.byId(visit, new WorkerId(told.subject())), told.from()))
                .toList();
        audit.seen(
                visit.viewer(), waiting.stream().map(one -> one.person().id()).collect(Collectors.toSet()), "outcomes");
        return waiting;
    }

    /**
     * Opens a report with its note, which is noted.
     *
     * @throws NotFound {@code record.unknown} when there is no such report
     */
    Report one(Visit visit, RecordId id) {
        History.Version version = history.find(visit.viewer().site(), id, sheets.now());
        if (version == null
                || !version.isCurrent()
                || !(version.told().fact() instanceof SymptomReport report)
                || report.step() != SymptomReport.Step.REPORTED) {
            throw new NotFound("record.unknown", id);
        }
        Person person = persons.byId(visit, new WorkerId(version.told().subject()));
        audit.seen(visit.viewer(), person.id(), "symptoms");
        return new Report(id, person, version.told().from(), report.note());
    }
}
