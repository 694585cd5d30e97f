package org.hoodkeeper.web.record;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.Lateness;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** A record with everything that it replaced and that replaced it. */
@Component
class Chains {

    private final History history;
    private final Accounts accounts;
    private final Lateness lateness;
    private final Names names;
    private final Sheets sheets;
    private final Words words;
    private final AuditTrail audit;

    Chains(
            History history,
            Accounts accounts,
            Lateness lateness,
            Names names,
            Sheets sheets,
            Words words,
            AuditTrail audit) {
        this.history = history;
        this.accounts = accounts;
        this.lateness = lateness;
        this.names = names;
        this.sheets = sheets;
        this.words = words;
        this.audit = audit;
    }

    /**
     * One version as its chain shows it.
     *
     * @param late days late; 0 when told in time
     * @param because why it replaces the one before; none for the first, and for a reader who may not know
     */
    public record Link(
            History.Version version,
            String by,
            long late,
            @Nullable String because) {

        public boolean isStruck() {
            return version.replacedBy() != null;
        }
    }

    /**
     * Opens a record for the reader, which is noted where it is about another person.
     *
     * @throws NotFound {@code record.unknown}, also for a record that this reader may not open
     */
    History.Version open(Visit visit, String text) {
        RecordId id = Sheets.recordId(text);
        History.Version version = find(visit.viewer().site(), id);
        if (version == null || !Sight.of(visit.viewer(), version)) {
            throw new NotFound("record.unknown", text);
        }
        UUID subject = version.told().subject();
        if (version.kind().subject() == Subject.WORKER
                || version.kind().subject() == Subject.ANY && names.of(visit).isPerson(subject)) {
            audit.seen(visit.viewer(), new WorkerId(subject), "records");
        }
        return version;
    }

    /** The same version once more, with what became of it meanwhile. */
    History.Version again(Visit visit, History.Version version) {
        return there(visit, version.told().id());
    }

    /** The version of the same chain that stands, or that took it back. */
    History.Version newest(Visit visit, History.Version version) {
        History.Version newest = version;
        while (newest.replacedBy() != null) {
            newest = there(visit, newest.replacedBy());
        }
        return newest;
    }

    /** The whole chain, newest first. */
    List<Link> of(Visit visit, History.Version version) {
        Map<AccountId, String> names = new HashMap<>();
        accounts.on(visit.viewer().site()).forEach(line -> names.put(line.id(), line.name()));
        Lateness.Measure measure = lateness.of(visit.viewer().site());
        List<Link> chain = new ArrayList<>();
        History.@Nullable Version at = newest(visit, version);
        while (at != null) {
            chain.add(new Link(
                    at,
                    names.getOrDefault(at.toldBy(), words.say("store.history.unknown")),
                    at.told().corrects() == null ? measure.days(at.kind(), at.told()) : 0,
                    Sight.ofReason(visit.viewer(), at.kind()) ? at.because() : null));
            RecordId before = at.told().corrects();
            at = before == null ? null : there(visit, before);
        }
        return chain;
    }

    private History.Version there(Visit visit, RecordId id) {
        History.Version version = find(visit.viewer().site(), id);
        if (version == null) {
            throw new NotFound("record.unknown", id);
        }
        return version;
    }

    private History.@Nullable Version find(SiteId site, RecordId id) {
        Instant now = sheets.now();
        return history.find(site, id, now);
    }
}
