package org.hoodkeeper.web.store;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.Acceptance;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.people.People;
import org.hoodkeeper.reporting.Lateness;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Sight;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** The life of a set, an instrument or a supply as the store may see it: staff names, nothing medical. */
@Component
class SetHistory {

    /** As many lines as a page shows; the officer's file has them all. */
    private static final int MOST = 60;

    private static final int STEPS = 6;

    private final History history;
    private final EventWords events;
    private final People people;
    private final Accounts accounts;
    private final ReasonWords reasons;
    private final Words words;
    private final Desk desk;
    private final Lateness lateness;

    SetHistory(
            History history,
            EventWords events,
            People people,
            Accounts accounts,
            ReasonWords reasons,
            Words words,
            Desk desk,
            Lateness lateness) {
        this.history = history;
        this.events = events;
        this.people = people;
        this.accounts = accounts;
        this.reasons = reasons;
        this.words = words;
        this.desk = desk;
        this.lateness = lateness;
    }

    /** Newest first. */
    List<History.Version> versions(Visit visit, Id subject) {
        return history.of(visit.viewer().site(), subject, desk.now(), MOST).stream()
                .filter(version -> !version.kind().isMedical() && !version.withdrawal())
                .toList();
    }

    /** Newest first: what was true by a moment, as known for it. */
    List<History.Version> versions(Visit visit, Id subject, Moment moment) {
        return history.of(visit.viewer().site(), subject, moment.knownAt(), MOST).stream()
                .filter(version -> !version.kind().isMedical() && !version.withdrawal())
                .filter(version -> !version.told().from().isAfter(moment.at()))
                .toList();
    }

    List<Happening> happenings(Visit visit, List<History.Version> versions) {
        Map<UUID, String> workers = workers(visit);
        Lateness.Measure measure = lateness.of(visit.viewer().site());
        Map<AccountId, String> tellers = new HashMap<>();
        accounts.on(visit.viewer().site()).forEach(line -> tellers.put(line.id(), line.name()));
        return versions.stream()
                .map(version -> happening(visit, version, workers, tellers, measure))
                .toList();
    }

    /** The last steps, oldest first, of what still counts. */
    List<Happening> life(Visit visit, List<History.Version> versions) {
        List<Happening> last = new ArrayList<>(happenings(
                visit,
                versions.stream()
                        .filter(version -> version.isCurrent() && version.kind() != Kind.SET)
                        .limit(STEPS)
                        .toList()));
        java.util.Collections.reverse(last);
        return last;
    }

    /** What a record says; none where there is no such record about that subject. */
    @Nullable Told<?> told(Visit visit, Id subject, UUID record) {
        History.Version version = history.find(visit.viewer().site(), new RecordId(record), desk.now());
        if (version == null || version.kind().isMedical()) {
            return null;
        }
        Told<?> told = version.told();
        boolean here = told.subject().equals(subject.value()) || subject.value().equals(told.item());
        return here ? told : null;
    }

    /** What was written of the holds and defects that are open, for whoever frees or mends the set. */
    List<String> notes(Visit visit, ShelfSet set) {
        return set.readiness().barring().stream()
                .map(reason -> noted(visit, set, reason))
                .flatMap(Optional::stream)
                .toList();
    }

    private Optional<String> noted(Visit visit, ShelfSet set, Reason reason) {
        RecordId record = reason.record();
        Told<?> told = record == null ? null : told(visit, set.id(), record.value());
        return Optional.ofNullable(told == null ? null : note(told))
                .map(note -> words.say("store.noted", reasons.why(reason), note));
    }

    private static @Nullable String note(Told<?> told) {
        if (told.fact() instanceof Defect defect) {
            return defect.note();
        }
        // of a set that was delivered it is the delivery note
        return told.fact() instanceof Hold hold && hold.why() != Hold.Why.NOT_ACCEPTED ? hold.reason() : null;
    }

    /** The look at a delivery after which it was not taken in, where that was the last one. */
    @Nullable Refusal refusal(List<History.Version> newestFirst) {
        return newestFirst.stream()
                .filter(version -> version.isCurrent() && version.told().fact() instanceof Acceptance)
                .findFirst()
                .filter(version -> !((Acceptance) version.told().fact()).accepted())
                .map(version -> new Refusal(
                        version.told().from(),
                        events.of(version.told(), null),
                        ((Acceptance) version.told().fact()).note()))
                .orElse(null);
    }

    /** @param what the points that were not in order, in words */
    public record Refusal(Instant at, String what, @Nullable String note) {}

    String words(Visit visit, Told<?> told) {
        return events.of(told, named(told, workers(visit)));
    }

    /** The part in each place of the set: the newest that was fitted. */
    Map<String, PartChange> parts(List<History.Version> newestFirst) {
        Map<String, PartChange> parts = new TreeMap<>();
        for (History.Version version : newestFirst) {
            if (version.isCurrent()
                    && version.told().fact() instanceof PartChange part
                    && version.told().scope() != null) {
                parts.putIfAbsent(version.told().scope(), part);
            }
        }
        return parts;
    }

    /** Open holds, or open defects, to choose from, each with what was written of it. */
    List<Choice> open(Visit visit, ShelfSet set, Why why) {
        return set.readiness().barring().stream()
                .filter(reason -> reason.why() == why && reason.record() != null)
                .map(reason -> Choice.named(String.valueOf(reason.record()), named(visit, set, reason)))
                .toList();
    }

    private String named(Visit visit, ShelfSet set, Reason reason) {
        return noted(visit, set, reason).orElseGet(() -> reasons.why(reason));
    }

    /** @throws NotFound {@code record.unknown} when it is not among what bars the set */
    RecordId open(ShelfSet set, String record) {
        return barring(set, record).findFirst().map(Reason::record).orElseThrow(() -> unknown(record));
    }

    String named(Visit visit, ShelfSet set, String record) {
        return barring(set, record)
                .findFirst()
                .map(reason -> named(visit, set, reason))
                .orElseThrow(() -> unknown(record));
    }

    private static NotFound unknown(String record) {
        return new NotFound("record.unknown", record);
    }

    private static Stream<Reason> barring(ShelfSet set, String record) {
        return set.readiness().barring().stream().filter(reason -> record.equals(String.valueOf(reason.record())));
    }

    private Happening happening(
            Visit visit,
            History.Version version,
            Map<UUID, String> workers,
            Map<AccountId, String> tellers,
            Lateness.Measure measure) {
        Told<?> told = version.told();
        boolean atOnce = Duration.between(told.from(), told.recordedAt()).toMinutes() < 1;
        return new Happening(
                told.id().toString(),
                Sight.of(visit.viewer(), version),
                told.from(),
                events.of(told, named(told, workers)),
                atOnce ? null : told.recordedAt(),
                told.corrects() == null ? measure.days(version.kind(), told) : 0,
                tellers.getOrDefault(version.toldBy(), words.say("store.history.unknown")),
                !version.isCurrent());
    }

    private Map<UUID, String> workers(Visit visit) {
        Map<UUID, String> workers = new HashMap<>();
        people.all(visit.viewer().site())
                .forEach(worker -> workers.put(worker.id().value(), worker.name()));
        return workers;
    }

    /** A wear is about the worker and names the set; the rest is about the set and names the worker. */
    private static @Nullable String named(Told<?> told, Map<UUID, String> workers) {
        UUID person = told.fact() instanceof Wear ? told.subject() : told.item();
        return person == null ? null : workers.get(person);
    }
}
