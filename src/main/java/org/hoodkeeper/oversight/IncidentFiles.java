package org.hoodkeeper.oversight;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.evidence.ExposureResults;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.Ids;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Lateness;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.StoredAnswers;
import org.hoodkeeper.reporting.WearBook;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Everything about a person, a set, a task or a place in a period, on one line of time: wears with what the screen said and what is
 * known now, the sets with their parts and checks, the air that they hung on, the rules in force, and every change of these
 * records since. What only a health professional may read stays out.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class IncidentFiles {

    /** Longest period of one file, days. */
    public static final int LONGEST_DAYS = 366;

    private static final int MOST_RECORDS = 5_000;
    private static final int MOST_WEARS = 500;

    /** More changes of data and parts than one set sees in its life. */
    private static final int MOST_OF_A_SET = 2_000;

    /** More calibrations than one instrument sees. */
    private static final int MOST_CALIBRATIONS = 200;

    private final History history;
    private final WearBook book;
    private final Questions questions;
    private final StoredAnswers stored;
    private final Lateness lateness;
    private final People people;
    private final Kit kit;
    private final Programme programme;
    private final ExposureResults results;
    private final KnowledgeClock clock;
    private final AuditTrail audit;
    private final JdbcTemplate jdbc;

    IncidentFiles(
            History history,
            WearBook book,
            Questions questions,
            StoredAnswers stored,
            Lateness lateness,
            People people,
            Kit kit,
            Programme programme,
            ExposureResults results,
            KnowledgeClock clock,
            AuditTrail audit,
            JdbcTemplate jdbc) {
        this.history = history;
        this.book = book;
        this.questions = questions;
        this.stored = stored;
        this.lateness = lateness;
        this.people = people;
        this.kit = kit;
        this.programme = programme;
        this.results = results;
        this.clock = clock;
        this.audit = audit;
        this.jdbc = jdbc;
    }

    /** What the file is of. */
    public enum About {
        WORKER,
        SET,
        TASK,
        /** A store, or where an air supply stands. */
        PLACE
    }

    /**
     * @param name a worker's number, a set's label, a task's code or a place as it is written in the records
     * @param until excluded
     */
    public record Asked(About about, String name, Instant from, Instant until) {}

    /** How a wear was judged. @param said none where there was no screen yet, or the site had not been told of the set */
    public record Judged(
            @Nullable Verdict said, boolean isStored, Verdict known, List<String> barredThen, List<String> barredNow) {}

    /**
     * One entry of the line of time.
     *
     * @param judged of a wear; none of other records
     * @param decides an answer about one of the wears rests on it
     * @param late days late; 0 when told in time, and for a correction
     */
    public record Event(
            Kind kind, History.Version version, @Nullable Judged judged, boolean decides, long late) {

        public boolean isStruck() {
            return !version.isCurrent();
        }
    }

    /**
     * @param ruleSets in force at one of the wears, or at the beginning of the period
     * @param more there is more than one file holds: ask for a shorter period
     * @param sealed the last sealed entry of the record, for whoever wants to check the file against the printed head
     */
    public record File(
            Asked asked,
            Instant knownAt,
            List<Event> events,
            int wears,
            Set<String> ruleSets,
            boolean more,
            @Nullable String sealed) {

        /** Whose records stand in it. */
        public Set<WorkerId> persons() {
            return events.stream()
                    .filter(event -> event.kind().subject() == Subject.WORKER)
                    .map(event -> new WorkerId(event.version().told().subject()))
                    .collect(Collectors.toSet());
        }
    }

    /**
     * @throws NotFound {@code worker.unknown}, {@code set.unknown}, {@code task.unknown}, {@code incident.place.unknown}
     * @throws Refused {@code incident.until.order}, {@code incident.until.far}
     */
    public File of(Viewer viewer, Asked asked) {
        if (!asked.from().isBefore(asked.until())) {
            throw new Refused("incident.until.order", asked.from(), asked.until());
        }
        if (asked.from().plusSeconds(86_400L * LONGEST_DAYS).isBefore(asked.until())) {
            throw new Refused("incident.until.far", LONGEST_DAYS);
        }
        Instant now = clock.now();
        SiteId site = viewer.site();
        List<Worn> worn =
                book.about(site, subjects(site, asked), asked.from().minusSeconds(86_400), asked.until()).stream()
                        .filter(one -> one.judged(now).until().isAfter(asked.from()))
                        .toList();
        boolean more = worn.size() > MOST_WEARS;
        Round round = new Round(site, now);
        worn.stream().limit(MOST_WEARS).forEach(round::wear);
        round.limits();
        round.instruments();
        Map<RecordId, History.Version> versions = new LinkedHashMap<>();
        Set<UUID> around = around(site, asked, worn, now);
        List<History.Version> within = history.within(site, around, asked.from(), asked.until(), now, MOST_RECORDS);
        Set<String> batches = batches(within, around);
        for (History.Version version : within) {
            if (bearsOn(version, batches) && (asked.about() != About.WORKER || isOf(site, asked, version))) {
                versions.put(version.told().id(), version);
            }
        }
        more |= versions.size() == MOST_RECORDS;
        if (asked.about() == About.SET) {
            subjects(site, asked)
                    .forEach(set -> madeOf(site, new SetId(set), asked.from(), now)
                            .forEach(id -> chain(site, id, now, versions)));
        }
        round.deciding.forEach(id -> chain(site, id, now, versions));
        List<History.Version> corrected =
                history.correctedBetween(site, asked.from(), now, asked.until(), around, MOST_RECORDS);
        more |= corrected.size() == MOST_RECORDS;
        changes(site, asked, corrected, batches).forEach(id -> chain(site, id, now, versions));
        List<Event> events = new ArrayList<>();
        Lateness.Measure measure = lateness.of(site);
        for (History.Version version : versions.values()) {
            if (version.kind() != Kind.SYMPTOM_REPORT && version.kind() != Kind.FINDING) {
                events.add(new Event(
                        version.kind(),
                        version,
                        round.judged.get(version.told().id()),
                        round.deciding.contains(version.told().id()),
                        version.told().corrects() == null ? measure.days(version.kind(), version.told()) : 0));
            }
        }
        events.sort(Comparator.comparing((Event event) -> event.version().told().from())
                .thenComparing(event -> event.version().told().recordedAt())
                .thenComparing(event -> event.version().told().id().value()));
        return new File(asked, now, events, worn.size(), round.ruleSets, more, sealed(site));
    }

    /** Keeps that somebody was given the file, and which records stood in it. @param bytes as they were given */
    @Transactional
    public void issued(Viewer viewer, File file, byte[] bytes, String form) {
        UUID id = Ids.next();
        String about = file.asked().about() + " " + file.asked().name() + " "
                + file.asked().from() + "/" + file.asked().until() + " " + form;
        jdbc.update(
                """
                insert into issued_file (site_id, id, issued_at, account_id, about, known_at, records, digest)
                values (?, ?, service_now(), ?, ?, ?, ?, sha256(?))""",
                viewer.site().value(),
                id,
                viewer.account().value(),
                about,
                file.knownAt().atOffset(ZoneOffset.UTC),
                file.events().stream()
                        .map(event -> event.version().told().id().value())
                        .toArray(UUID[]::new),
                bytes);
        audit.record(
                viewer.site(),
                AuditEntry.of("incident.exported")
                        .by(viewer.account())
                        .about(subject(viewer.site(), file.asked(), id))
                        .saying(file.asked().about() + " " + file.asked().from() + "/"
                                + file.asked().until() + " " + form));
    }

    /** The trail is never erased, so that it names whom a file is about by id and not by number; of a place the file itself. */
    private UUID subject(SiteId site, Asked asked, UUID file) {
        return asked.about() == About.PLACE
                ? file
                : subjects(site, asked).iterator().next();
    }

    /** What was corrected or taken back since about any of it, also where nothing rests on it any more. */
    private List<RecordId> changes(SiteId site, Asked asked, List<History.Version> corrected, Set<String> batches) {
        return corrected.stream()
                .filter(version -> bearsOn(version, batches))
                .filter(version -> asked.about() != About.WORKER || isOf(site, asked, version))
                .map(version -> version.told().id())
                .toList();
    }

    /**
     * Of what is told of the whole site, rules, limits and recalls bear on everything, a wash on the sets that lay in it, and
     * what lies in the store on nothing: the part that was fitted stands in the file by itself.
     */
    private static boolean bearsOn(History.Version version, Set<String> batches) {
        return switch (version.kind()) {
            case STOCK_RECEIPT, STOCK_USE, STOCK_COUNT, PARTICULARS -> false;
            case WASH_STEP -> batches.contains(String.valueOf(version.told().scope()));
            default -> true;
        };
    }

    /** The washes in which one of the sets lay: each set is stripped by a record of its own, the other steps are of the whole batch. */
    private static Set<String> batches(List<History.Version> within, Set<UUID> around) {
        return within.stream()
                .filter(version -> version.kind() == Kind.WASH_STEP
                        && version.told().item() != null
                        && around.contains(version.told().item()))
                .map(version -> String.valueOf(version.told().scope()))
                .collect(Collectors.toSet());
    }

    /** In a person's file nobody else's wears and evidence stand, though they name the same set or task. */
    private boolean isOf(SiteId site, Asked asked, History.Version version) {
        return version.kind().subject() != Subject.WORKER
                || subjects(site, asked).contains(version.told().subject());
    }

    /** Corrections of what a wear rested on belong to its story, and so does what they replaced. */
    private void chain(SiteId site, RecordId id, Instant now, Map<RecordId, History.Version> versions) {
        RecordId at = id;
        while (at != null && !versions.containsKey(at)) {
            History.Version version = history.find(site, at, now);
            if (version == null) {
                return;
            }
            versions.put(at, version);
            if (version.replacedBy() != null) {
                chain(site, version.replacedBy(), now, versions);
            }
            at = version.told().corrects();
        }
    }

    private Collection<UUID> subjects(SiteId site, Asked asked) {
        return switch (asked.about()) {
            case WORKER -> List.of(people.byNumber(site, asked.name()).id().value());
            case SET -> List.of(kit.set(site, asked.name()).id().value());
            case TASK -> List.of(programme.task(site, asked.name()).id().value());
            case PLACE -> place(site, asked);
        };
    }

    /**
     * The sets and air supplies that were there in the period, as known now: what was claimed of a place and taken back was never
     * there, and what had left before, or came after, has nothing to do with it.
     */
    private List<UUID> place(SiteId site, Asked asked) {
        List<Stay> stays = jdbc.query(
                """
                select subject, place, true_from < ? and coalesce(next > ?, true) as there from (
                    select r.subject, case r.kind when %1$d then r.body ->> 'store' else r.body ->> 'place' end as place,
                           r.true_from,
                           lead(r.true_from) over (partition by r.subject order by r.true_from, r.recorded_at, r.id) as next
                    from ledger_record r
                    where r.site_id = ? and r.kind in (%1$d, %2$d) and not r.withdrawn
                      and not exists (select from ledger_record x where x.site_id = r.site_id and x.corrects = r.id)) stay
                where place = ?""".formatted(Kind.SET.number(), Kind.SUPPLY_MOVE.number()),
                (row, n) -> new Stay(row.getObject("subject", UUID.class), row.getBoolean("there")),
                asked.until().atOffset(ZoneOffset.UTC),
                asked.from().atOffset(ZoneOffset.UTC),
                site.value(),
                asked.name());
        if (stays.isEmpty()) {
            throw new NotFound("incident.place.unknown", asked.name());
        }
        return stays.stream().filter(Stay::there).map(Stay::subject).distinct().toList();
    }

    private record Stay(UUID subject, boolean there) {}

    /** What a set was at an instant, as known now: its data, its model's, and the part that sat in each place. */
    private List<RecordId> madeOf(SiteId site, SetId set, Instant at, Instant now) {
        List<History.Version> own = standing(site, set, List.of(Kind.SET, Kind.PART_CHANGE), at, now);
        List<History.Version> all = new ArrayList<>(own);
        for (History.Version version : own) {
            if (version.told().fact() instanceof SetData data) {
                all.addAll(standing(site, data.model(), List.of(Kind.MODEL), at, now));
            }
        }
        return all.stream().map(version -> version.told().id()).toList();
    }

    /** The newest current version of each kind and scope that had begun. */
    private List<History.Version> standing(SiteId site, Id subject, List<Kind> kinds, Instant at, Instant now) {
        Map<String, History.Version> newest = new LinkedHashMap<>();
        for (History.Version version : history.of(site, subject, kinds, now, MOST_OF_A_SET)) {
            if (version.isCurrent() && !version.told().from().isAfter(at)) {
                newest.putIfAbsent(version.kind() + " " + version.told().scope(), version);
            }
        }
        return List.copyOf(newest.values());
    }

    /** The subjects themselves, the sets that were worn, the air that these hung on, and the site's own rules. */
    private Set<UUID> around(SiteId site, Asked asked, List<Worn> worn, Instant now) {
        Set<UUID> around = new LinkedHashSet<>(subjects(site, asked));
        Set<UUID> sets = new LinkedHashSet<>();
        for (Worn one : worn) {
            sets.add(one.set().value());
            around.add(one.task().value());
        }
        if (asked.about() == About.SET || asked.about() == About.PLACE) {
            sets.addAll(subjects(site, asked));
        }
        around.addAll(sets);
        for (UUID set : sets) {
            for (History.Version version : history.of(site, new SetId(set), now, 200)) {
                if (version.told().fact() instanceof SetData data) {
                    around.add(data.model().value());
                    if (data.supply() != null) {
                        around.add(data.supply().value());
                    }
                }
            }
        }
        around.add(site.value());
        return around;
    }

    private @Nullable String sealed(SiteId site) {
        return jdbc
                .query(
                        "select position || ' ' || encode(hash, 'hex') from ledger_head where site_id = ?",
                        (row, n) -> row.getString(1),
                        site.value())
                .stream()
                .findFirst()
                .orElse(null);
    }

    /** The wears of one file, each asked twice. */
    private final class Round {

        private final SiteId site;
        private final Instant now;
        private final Map<RecordId, Judged> judged = new LinkedHashMap<>();
        private final Set<RecordId> deciding = new LinkedHashSet<>();
        private final Set<String> ruleSets = new TreeSet<>();
        private final List<Interval> wears = new ArrayList<>();

        private Round(SiteId site, Instant now) {
            this.site = site;
            this.now = now;
        }

        private void wear(Worn worn) {
            Interval wear = worn.judged(now);
            wears.add(wear);
            deciding.addAll(madeOf(site, worn.set(), wear.from(), now));
            Answer then = ask(worn, wear, worn.from(), Question.Start.AHEAD);
            Answer known = ask(worn, wear, now, Question.Start.BEGUN);
            Verdict gate = stored.atGate(site, worn.entry());
            Verdict computed = then == null ? null : then.verdict();
            for (Answer answer : new Answer[] {then, known}) {
                if (answer != null) {
                    deciding.addAll(answer.deciding());
                    deciding.addAll(answer.decisions());
                    ruleSets.addAll(answer.ruleSets());
                }
            }
            judged.put(
                    worn.entry(),
                    new Judged(
                            gate == null ? computed : gate,
                            gate != null,
                            known == null ? Verdict.NOT_CLEARED : known.verdict(),
                            barred(then),
                            barred(known)));
        }

        /**
         * Whether a device was enough rests on the limit as much as on the assessment: that of each substance which an
         * assessment or result names, in force at one of the wears.
         */
        private void limits() {
            Set<String> substances = new LinkedHashSet<>();
            for (RecordId id : deciding) {
                History.Version version = history.find(site, id, now);
                if (version != null && version.told().fact() instanceof TaskBasis basis) {
                    basis.exposures().forEach(exposure -> substances.add(exposure.substance()));
                } else if (version != null && version.kind() == Kind.EXPOSURE_RESULT) {
                    substances.add(String.valueOf(version.told().scope()));
                }
            }
            if (substances.isEmpty()) {
                return;
            }
            List<Told<Limit>> newestFirst = results.limits(site);
            for (Interval wear : wears) {
                for (String substance : substances) {
                    newestFirst.stream()
                            .filter(told -> substance.equals(told.scope()))
                            .filter(told -> !told.from().isAfter(wear.from()))
                            .findFirst()
                            .ifPresent(told -> deciding.add(told.id()));
                }
            }
        }

        /**
         * A flow that was measured proves as much as the instrument did: the calibration in force at each reading, and the next
         * one, which says how it was found.
         */
        private void instruments() {
            Map<InstrumentId, List<History.Version>> newestFirst = new LinkedHashMap<>();
            for (RecordId id : List.copyOf(deciding)) {
                History.Version reading = history.find(site, id, now);
                InstrumentId instrument =
                        reading == null ? null : instrument(reading.told().fact());
                if (reading == null || instrument == null) {
                    continue;
                }
                History.Version next = null;
                for (History.Version calibration : newestFirst.computeIfAbsent(
                        instrument, one -> history.of(site, one, List.of(Kind.CALIBRATION), now, MOST_CALIBRATIONS))) {
                    if (!calibration.isCurrent()) {
                        continue;
                    }
                    if (!calibration.told().from().isAfter(reading.told().from())) {
                        deciding.add(calibration.told().id());
                        break;
                    }
                    next = calibration;
                }
                if (next != null) {
                    deciding.add(next.told().id());
                }
            }
        }

        private static @Nullable InstrumentId instrument(Fact fact) {
            if (fact instanceof FlowCheck check) {
                return check.instrument();
            }
            if (fact instanceof Examination examination) {
                return examination.indicator();
            }
            return fact instanceof PreUseCheck check ? check.indicator() : null;
        }

        private @Nullable Answer ask(Worn worn, Interval wear, Instant knownAt, Question.Start start) {
            Question question = Question.ofSet(site, worn.worker(), worn.task(), worn.set(), wear, knownAt);
            return questions.wholeIfTold(start == Question.Start.AHEAD ? question.atTheDoor() : question);
        }

        private static List<String> barred(@Nullable Answer answer) {
            return answer == null
                    ? List.of()
                    : answer.reasons().stream()
                            .filter(reason -> reason.result().bars())
                            .map(Reason::kind)
                            .map(Enum::name)
                            .distinct()
                            .toList();
        }
    }
}
