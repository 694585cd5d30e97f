package org.hoodkeeper.evidence;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.programme.RuleShelf;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Puts a record right by a second one: the first stays, and both are shown. What was derived from it is derived anew in the same
 * transaction: custody of the old set and the new, and what names the old record as the one that it ends.
 */
@Service
@Transactional
public class Corrections {

    /** Beyond every record: corrections always look at the newest. */
    private static final Instant FOR_EVER = Instant.parse("9999-01-01T00:00:00Z");

    private static final int LONGEST_REASON = 2_000;

    private final History history;
    private final Ledger ledger;
    private final Telling telling;
    private final Known known;
    private final Custodies custodies;
    private final StatedFigures figures;
    private final RuleShelf rules;
    private final JdbcTemplate jdbc;
    private final Cleanings cleanings;
    private final Stock stock;
    private final ApplicationEventPublisher events;

    Corrections(
            History history,
            Ledger ledger,
            Telling telling,
            Known known,
            Custodies custodies,
            StatedFigures figures,
            RuleShelf rules,
            JdbcTemplate jdbc,
            Cleanings cleanings,
            Stock stock,
            ApplicationEventPublisher events) {
        this.history = history;
        this.ledger = ledger;
        this.telling = telling;
        this.known = known;
        this.custodies = custodies;
        this.figures = figures;
        this.rules = rules;
        this.jdbc = jdbc;
        this.cleanings = cleanings;
        this.stock = stock;
        this.events = events;
    }

    /**
     * States a record anew; it may turn to another subject, scope or time.
     *
     * @param stated the whole record as it should have been, of the same kind
     * @throws NotFound {@code record.unknown}
     * @throws Refused {@code correction.notEntitled}; {@code ledger.corrected} when a newer version is there, which is the first
     *     argument; {@code ledger.becauseMissing}; {@code correction.same} when nothing differs; {@code ledger.future} for an
     *     event that lies ahead; as {@link Accept#fact} for its shape, {@link ExposureResults#requireLimit} for a result, and
     *     {@link FiguresOnRecord} for an assessment and the name of a limit
     */
    public RecordId correct(Viewer viewer, RecordId record, Draft stated, @Nullable String because) {
        Author author = Author.at(viewer);
        History.Version old = newest(viewer, record);
        String reason = reason(because);
        if (Kind.of(stated.fact()) != old.kind()) {
            throw new IllegalArgumentException("a correction stays of its kind");
        }
        accept(viewer.site(), stated, record);
        requireDifference(old.told(), stated);
        Set<Id> about = new LinkedHashSet<>(about(
                viewer.site(), old.kind(), old.told().subject(), old.told().item()));
        about.addAll(about(viewer.site(), old.kind(), stated.subject(), stated.item()));
        telling.take(viewer.site(), about.toArray(Id[]::new));
        RecordId corrected = ledger.append(author, stated.correcting(record, reason));
        followUp(author, old, stated, corrected, reason);
        return corrected;
    }

    /**
     * Takes a record back: it was wrong and nothing takes its place.
     *
     * @throws Refused as {@link #correct}
     */
    public RecordId withdraw(Viewer viewer, RecordId record, @Nullable String because) {
        Author author = Author.at(viewer);
        History.Version old = newest(viewer, record);
        String reason = reason(because);
        Told<?> told = old.told();
        Set<Id> about = about(viewer.site(), old.kind(), told.subject(), told.item());
        telling.take(viewer.site(), about.toArray(Id[]::new));
        Draft back = same(told).correcting(record, reason);
        RecordId withdrawn = ledger.withdraw(author, back).records().get(0);
        rebuildCustody(author, old.kind(), about);
        announceParts(author, old.kind(), about);
        return withdrawn;
    }

    /**
     * Not a correction but a change: what the record says was right, and something else holds from a later time on.
     *
     * @param stated what holds from then on
     * @throws Refused {@code correction.notEntitled}, {@code correction.change.kind} where a kind tells of events, {@code
     *     correction.change.early} when it does not begin after the record that it follows, {@code correction.change.overtaken}
     *     when another one stands by then
     */
    public RecordId change(Viewer viewer, RecordId record, Draft stated) {
        History.Version old = newest(viewer, record);
        if (!canChange(old.kind())) {
            throw new Refused("correction.change.kind", old.kind());
        }
        if (!stated.from().isAfter(old.told().from())) {
            throw new Refused("correction.change.early", old.told().from());
        }
        accept(viewer.site(), stated, null);
        Set<Id> about = about(viewer.site(), old.kind(), stated.subject(), stated.item());
        telling.take(viewer.site(), about.toArray(Id[]::new));
        ledger.alone(viewer.site(), old.kind(), old.told().subject());
        requireStanding(viewer.site(), old, stated.from());
        RecordId changed = ledger.append(Author.at(viewer), stated.source(null));
        announceParts(Author.at(viewer), old.kind(), about);
        return changed;
    }

    /** The whole is stated anew: built on what another has changed since, it would take that change back unawares. */
    private void requireStanding(SiteId site, History.Version old, Instant from) {
        jdbc
                .query(
                        """
                        select r.id from ledger_record r
                        where r.site_id = ? and r.kind = ? and r.subject = ? and r.scope is not distinct from ?
                          and r.true_from <= ? and not r.withdrawn
                          and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
                        order by r.true_from desc, r.recorded_at desc, r.id desc limit 1""",
                        (row, n) -> new RecordId(row.getObject(1, UUID.class)),
                        site.value(),
                        old.kind().number(),
                        old.told().subject(),
                        old.told().scope(),
                        from.atOffset(ZoneOffset.UTC))
                .stream()
                .filter(standing -> !standing.equals(old.told().id()))
                .findFirst()
                .ifPresent(standing -> {
                    throw new Refused("correction.change.overtaken", standing);
                });
    }

    /** Whether a record of this kind says what holds from a time on, so that a change must be told apart from a correction. */
    public static boolean canChange(Kind kind) {
        return switch (kind) {
            case MODEL, SET, LIMIT, TASK_BASIS, SITE_DECISION -> true;
            default -> false;
        };
    }

    private History.Version newest(Viewer viewer, RecordId record) {
        History.Version version = history.find(viewer.site(), record, FOR_EVER);
        if (version == null) {
            throw new NotFound("record.unknown", record);
        }
        if (!Entitled.toCorrect(viewer, version)) {
            throw new Refused("correction.notEntitled", version.kind());
        }
        if (version.replacedBy() != null) {
            throw new Refused("ledger.corrected", version.replacedBy());
        }
        if (version.withdrawal()) {
            throw new Refused("correction.withdrawn", record);
        }
        return version;
    }

    private static String reason(@Nullable String because) {
        if (because == null || because.isBlank()) {
            throw new Refused("ledger.becauseMissing");
        }
        if (because.length() > LONGEST_REASON) {
            throw new Refused("record.because.long", because.length(), LONGEST_REASON);
        }
        return because.strip();
    }

    /** @param instead the record that the draft takes the place of; none where it comes beside it */
    private void accept(SiteId site, Draft stated, @Nullable RecordId instead) {
        Accept.fact(stated.fact());
        Accept.at(stated.from());
        if (stated.fact() instanceof SiteDecision decision) {
            rules.check(stated.scope() == null ? "" : stated.scope(), decision.value());
        }
        if (stated.fact() instanceof MedicalOutcome outcome) {
            Accept.reviewDay(outcome, Days.of(stated.from(), known.zone(site)));
        }
        if (stated.fact() instanceof ExposureResult result) {
            ExposureResults.requireLimit(
                    known.newest(site, Limit.class, Kind.LIMIT, site), stated.scope(), result, stated.from());
        }
        if (stated.fact() instanceof TaskBasis basis) {
            figures(site, instead).require(stated.subject(), basis, stated.from());
        }
        if (stated.fact() instanceof Limit limit) {
            String substance = String.valueOf(stated.scope());
            if (instead == null) {
                figures.of(site).require(substance, limit, stated.from());
            } else {
                // A slip in the unit runs through limit, results and assessments, each of which bars the mending of the
                // others. So
                // the limit goes first: until the rest has followed, the units differ, which clears nobody.
                figures(site, instead).requireSpelling(substance);
            }
        }
    }

    private FiguresOnRecord figures(SiteId site, @Nullable RecordId instead) {
        FiguresOnRecord all = figures.of(site);
        return instead == null ? all : all.without(instead);
    }

    private static void requireDifference(Told<?> old, Draft stated) {
        Draft before = same(old);
        if (before.fact().equals(stated.fact())
                && before.subject().equals(stated.subject())
                && Objects.equals(before.item(), stated.item())
                && Objects.equals(before.scope(), stated.scope())
                && before.from().equals(stated.from())
                && Objects.equals(before.until(), stated.until())) {
            throw new Refused("correction.same");
        }
    }

    private static Draft same(Told<?> told) {
        return new Draft(
                told.fact(), told.subject(), told.item(), told.scope(), told.from(), told.until(), null, null, null);
    }

    private void followUp(Author author, History.Version old, Draft stated, RecordId corrected, String reason) {
        if (stated.fact() instanceof FlowCheck now
                && old.told().fact() instanceof FlowCheck then
                && now.outcome() == Outcome.FAIL
                && then.outcome() == Outcome.PASS) {
            SetId set = new SetId(stated.subject());
            ledger.append(author, Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DEFECT, null), set, stated.from()));
        }
        holdAsIfTold(author, old, stated);
        Set<Id> about =
                new LinkedHashSet<>(about(author.site(), old.kind(), old.told().subject(), null));
        about.addAll(about(author.site(), old.kind(), stated.subject(), null));
        rebuildCustody(author, old.kind(), about);
        turnEnds(author, old, stated, corrected, reason);
        announceParts(author, old.kind(), about);
    }

    /** A wash or a part that would have held its set had it been told so at once holds it now; what held it before, still does. */
    private void holdAsIfTold(Author author, History.Version old, Draft stated) {
        SetId set = new SetId(stated.subject());
        List<Draft> holds = List.of();
        if (stated.fact() instanceof Cleaning now) {
            holds = new ArrayList<>(cleanings.spoilt(author.site(), set, now, stated.from()));
            if (old.told().fact() instanceof Cleaning then
                    && old.told().subject().equals(stated.subject())) {
                leaveOut(cleanings.spoilt(author.site(), set, then, old.told().from()), holds);
            }
        } else if (stated.fact() instanceof PartChange now) {
            holds = new ArrayList<>(stock.overItsDay(author.site(), set, now, stated.from()));
            if (old.told().fact() instanceof PartChange then
                    && old.told().subject().equals(stated.subject())) {
                leaveOut(stock.overItsDay(author.site(), set, then, old.told().from()), holds);
            }
        }
        if (!holds.isEmpty()) {
            ledger.append(author, holds);
        }
    }

    /** Leaves out what held it for the same reason already. */
    private static void leaveOut(List<Draft> before, List<Draft> holds) {
        Set<Fact> known = before.stream().map(Draft::fact).collect(Collectors.toSet());
        holds.removeIf(hold -> known.contains(hold.fact()));
    }

    /** What parts a set has, or which are recalled, has changed with it. */
    private void announceParts(Author author, Kind kind, Set<Id> about) {
        switch (kind) {
            case PART_CHANGE, SET, RECALL_DECISION -> {
                Set<SetId> sets = new LinkedHashSet<>();
                about.forEach(id -> {
                    if (id instanceof SetId set) {
                        sets.add(set);
                    }
                });
                events.publishEvent(new PartsTold(author, sets));
            }
            case RECALL, MODEL -> events.publishEvent(new PartsTold(author, null));
            default -> {
                // says nothing of parts
            }
        }
    }

    private void rebuildCustody(Author author, Kind kind, Set<Id> about) {
        if (kind != Kind.CUSTODY) {
            return;
        }
        for (Id id : about) {
            if (id instanceof SetId set) {
                Draft dispute = custodies.rebuildAfterImport(author.site(), set);
                if (dispute != null) {
                    ledger.append(author, dispute);
                }
            }
        }
    }

    /** A release, a mending, a closing or a review names the version that it ended; it has to name the one that now stands. */
    private void turnEnds(Author author, History.Version old, Draft stated, RecordId corrected, String reason) {
        for (RecordId ending : endings(author.site(), old)) {
            History.Version end = history.find(author.site(), ending, FOR_EVER);
            if (end != null) {
                Told<?> told = end.told();
                boolean sameThing = told.subject().equals(old.told().subject());
                Draft turned = new Draft(
                        told.fact(),
                        sameThing ? stated.subject() : told.subject(),
                        corrected.value(),
                        told.scope(),
                        told.from(),
                        told.until(),
                        null,
                        null,
                        null);
                ledger.append(author, turned.correcting(ending, reason));
            }
        }
    }

    private List<RecordId> endings(SiteId site, History.Version old) {
        return switch (old.kind()) {
            case HOLD, DEFECT, SYMPTOM_REPORT, TASK_TRIGGER, LEGAL_HOLD ->
                jdbc.query(
                        """
                        select e.id from ledger_record e
                        where e.site_id = ? and e.item = ? and e.kind = ? and not e.withdrawn
                          and not exists (select 1 from ledger_record c where c.site_id = e.site_id and c.corrects = e.id)""",
                        (row, n) -> new RecordId(row.getObject(1, UUID.class)),
                        site.value(),
                        old.told().id().value(),
                        old.kind().number());
            default -> List.of();
        };
    }

    /** Everything that a record names and that can be locked or must be there. */
    private Set<Id> about(SiteId site, Kind kind, UUID subject, @Nullable UUID item) {
        Set<Id> about = new LinkedHashSet<>();
        switch (kind.subject()) {
            case WORKER -> about.add(new WorkerId(subject));
            case SET -> about.add(new SetId(subject));
            case TASK -> about.add(new TaskId(subject));
            case INSTRUMENT -> about.add(new InstrumentId(subject));
            case SUPPLY -> about.add(new SupplyId(subject));
            case ANY -> about.addAll(any(site, subject));
            case MODEL, SITE -> {
                // neither can be locked, and the reader of the form has found them
            }
        }
        if (item != null) {
            switch (kind) {
                case WEAR -> about.add(new SetId(item));
                case CUSTODY, PRE_USE_CHECK -> about.add(new WorkerId(item));
                case POSTING -> about.add(new TaskId(item));
                default -> {
                    // the second party is another record, or nobody
                }
            }
        }
        return about;
    }

    private List<Id> any(SiteId site, UUID subject) {
        List<Id> found = new ArrayList<>();
        if (isThere("select 1 from kit_set where site_id = ? and id = ?", site, subject)) {
            found.add(new SetId(subject));
        } else if (isThere("select 1 from worker where site_id = ? and id = ?", site, subject)) {
            found.add(new WorkerId(subject));
        }
        return found;
    }

    private boolean isThere(String sql, SiteId site, UUID id) {
        return !jdbc.queryForList(sql, Integer.class, site.value(), id).isEmpty();
    }
}
