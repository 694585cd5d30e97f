package org.hoodkeeper.oversight;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.Period;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.calculation.Retention;
import org.hoodkeeper.evidence.LegalHolds;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Dossiers;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.Provenance;
import org.hoodkeeper.rules.RetentionRule;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * How long each record is kept: the longest of the rules that apply, each counted from its own anchor by the rule set that is in
 * force there; longer under a legal hold, and while today's answers may rest on the record.
 */
@Service
@Transactional(readOnly = true)
public class Retentions {

    /** Older than any rule set and any record: {@code record.at.range}. */
    private static final Instant BEGINNING = Instant.parse("1950-01-01T00:00:00Z");

    private final KeptVersions versions;
    private final LegalHolds holds;
    private final People people;
    private final SiteRegister sites;
    private final RuleShelf shelf;
    private final Dossiers dossiers;

    Retentions(
            KeptVersions versions,
            LegalHolds holds,
            People people,
            SiteRegister sites,
            RuleShelf shelf,
            Dossiers dossiers) {
        this.versions = versions;
        this.holds = holds;
        this.people = people;
        this.sites = sites;
        this.shelf = shelf;
        this.dossiers = dossiers;
    }

    /** What the rule set that is in force at an instant says of each kind; a kind of which it says nothing has no line. */
    public List<RetentionRule> rules(SiteId site, Instant at) {
        return rulesOf(sites.get(site), at).at(at).retention();
    }

    /** Code and version of the rule set in force. */
    public String ruleSet(SiteId site, Instant at) {
        return rulesOf(sites.get(site), at).at(at).ruleSet();
    }

    /** By the records' own ids, for any version of theirs; what is not there is left out. */
    public Map<UUID, KeepUntil> of(SiteId site, Collection<UUID> records, Instant now) {
        Map<UUID, UUID> roots = versions.roots(site, records);
        Map<UUID, KeepUntil> kept = ofRoots(site, Set.copyOf(roots.values()), now);
        Map<UUID, KeepUntil> found = new LinkedHashMap<>();
        roots.forEach((record, root) -> found.put(record, Objects.requireNonNull(kept.get(root))));
        return found;
    }

    private Map<UUID, KeepUntil> ofRoots(SiteId site, Collection<UUID> roots, Instant now) {
        return judged(site, versions.chains(site, roots), now);
    }

    /** @param chains by their first records */
    Map<UUID, KeepUntil> judged(SiteId site, Map<UUID, List<KeptVersions.Version>> chains, Instant now) {
        if (chains.isEmpty()) {
            return Map.of();
        }
        Judge judge = new Judge(sites.get(site), chains, now);
        Map<UUID, KeepUntil> kept = new LinkedHashMap<>();
        chains.forEach((root, chain) -> kept.put(root, judge.of(chain)));
        return kept;
    }

    /** The shortest span that any rule of the kind asks for; none where no rule speaks of it. */
    @Nullable Period shortest(SiteId site, Kind kind, Instant now) {
        LocalDate day = LocalDate.of(2000, 1, 1);
        return everyRule(now)
                .filter(rule -> rule.kinds().contains(kind))
                .map(rule -> rule.span() == null ? Period.ZERO : rule.span())
                .min((one, other) -> day.plus(one).compareTo(day.plus(other)))
                .orElse(null);
    }

    /** Where a rule stands, by its code, in whatever version names it. */
    public @Nullable Provenance provenance(String code) {
        return everyRule(Instant.MAX)
                .filter(rule -> rule.code().equals(code))
                .map(RetentionRule::provenance)
                .findFirst()
                .orElse(null);
    }

    private Stream<RetentionRule> everyRule(Instant now) {
        return shelf.knownAt(now).stream()
                .flatMap(set -> set.retention().stream())
                .distinct();
    }

    private SiteRules rulesOf(Site site, Instant now) {
        return dossiers.load(
                        site,
                        new Dossiers.Wanted(List.of(), List.of(), List.of(), Map.of()),
                        new Interval(BEGINNING, now.plus(Duration.ofMinutes(1))),
                        now)
                .rules();
    }

    /** Judges records of one site at one instant, with all that is asked about them asked once. */
    private final class Judge {

        private final Site site;
        private final SiteId id;
        private final Instant now;
        private final SiteRules rules;
        private final List<RetentionRule> every;
        private final List<Told<LegalHold>> open;
        private final Map<UUID, LocalDate> left;
        private final Map<UUID, Instant> next;
        private final Set<UUID> ended;
        private final Set<UUID> present;
        private final Set<UUID> emergency;
        private final Map<UUID, Instant> examined;
        private final Map<UUID, LocalDate> resultsSince;
        private final Map<UUID, Instant> ofTasks;
        private final Map<String, Instant> ofPersons;
        private final Map<String, UUID> numbers = new HashMap<>();
        private final Map<RetentionRule, Map<UUID, Instant>> entries = new HashMap<>();

        Judge(Site site, Map<UUID, List<KeptVersions.Version>> chains, Instant now) {
            this.site = site;
            this.id = site.id();
            this.now = now;
            this.rules = rulesOf(site, now);
            this.every = everyRule(now).toList();
            this.open = holds.open(id);
            List<KeptVersions.Version> all =
                    chains.values().stream().flatMap(List::stream).toList();
            Set<String> persons = all.stream()
                    .map(KeptVersions.Version::person)
                    .filter(Objects::nonNull)
                    .collect(Collectors.toSet());
            if (!persons.isEmpty()) {
                people.all(id).forEach(one -> numbers.put(one.number(), one.id().value()));
            }
            Set<UUID> workers = subjects(all, Subject.WORKER);
            Set<UUID> sets = subjects(all, Subject.SET);
            Set<UUID> tasks = subjects(all, Subject.TASK);
            persons.stream().map(numbers::get).filter(Objects::nonNull).forEach(workers::add);
            this.left = versions.leavers(id, workers);
            this.next = versions.next(
                    id, chains.values().stream().map(Judge::stated).toList());
            this.ended = versions.ended(
                    id, all.stream().map(KeptVersions.Version::id).toList());
            this.present = versions.present(
                    id,
                    all.stream()
                            .map(KeptVersions.Version::item)
                            .filter(Objects::nonNull)
                            .toList());
            this.emergency = versions.emergencySets(id, sets);
            this.examined = versions.examined(id, sets);
            this.resultsSince = versions.resultsSince(id, tasks, now);
            this.ofTasks = versions.lastOfTasks(id, tasks);
            this.ofPersons = versions.lastOfPersons(id, persons);
            for (RetentionRule rule : every) {
                if (rule.from() == RetentionRule.From.LAST_ENTRY
                        && !rule.kinds().contains(Kind.EXPOSURE_RESULT)) {
                    Set<UUID> subjects = all.stream()
                            .filter(one -> rule.kinds().contains(one.kind()))
                            .map(KeptVersions.Version::subject)
                            .collect(Collectors.toSet());
                    entries.put(rule, versions.lastEntries(id, rule.kinds(), subjects));
                }
            }
        }

        private static Set<UUID> subjects(List<KeptVersions.Version> all, Subject subject) {
            return all.stream()
                    .filter(one -> one.kind().subject() == subject)
                    .map(KeptVersions.Version::subject)
                    .collect(Collectors.toSet());
        }

        private static KeptVersions.Version stated(List<KeptVersions.Version> chain) {
            return chain.get(chain.size() - 1);
        }

        KeepUntil of(List<KeptVersions.Version> chain) {
            Kind kind = stated(chain).kind();
            LocalDate made = day(chain.stream()
                    .map(KeptVersions.Version::made)
                    .max(Instant::compareTo)
                    .orElseThrow());
            List<KeepUntil.Applied> applied = new ArrayList<>();
            // without a rule set on the day it was made nobody knows what was asked for
            if (!rules.at(Days.startOf(made, site.zone())).retention().isEmpty()) {
                for (RetentionRule rule : every) {
                    if (rule.kinds().contains(kind) && isMeant(rule, chain)) {
                        applied(rule, chain, made, applied);
                    }
                }
            }
            return new KeepUntil(kind, made, applied, held(chain), inUse(chain));
        }

        private void applied(
                RetentionRule rule, List<KeptVersions.Version> chain, LocalDate made, List<KeepUntil.Applied> applied) {
            LocalDate anchor = anchor(rule, chain, made);
            InForce then = rules.at(anchor == null ? now : Days.startOf(anchor, site.zone()));
            if (then.retention().contains(rule)) {
                Retention retention =
                        rule.span() == null ? Retention.untilReplaced(anchor) : Retention.counted(anchor, rule.span());
                applied.add(new KeepUntil.Applied(rule, anchor, retention));
            }
        }

        private boolean isMeant(RetentionRule rule, List<KeptVersions.Version> chain) {
            return switch (rule.which()) {
                case ALL -> true;
                case IDENTIFIES_A_PERSON -> isOfAPerson(chain);
                case IDENTIFIES_NOBODY -> !isOfAPerson(chain);
                case EMERGENCY_SET -> chain.stream().anyMatch(one -> emergency.contains(one.subject()));
            };
        }

        private static boolean isOfAPerson(List<KeptVersions.Version> chain) {
            return chain.stream()
                    .anyMatch(one -> one.person() != null || one.kind().subject() == Subject.WORKER);
        }

        private @Nullable LocalDate anchor(RetentionRule rule, List<KeptVersions.Version> chain, LocalDate made) {
            return switch (rule.from()) {
                case RECORD_DAY -> made;
                case LAST_ENTRY -> lastEntry(rule, chain, made);
                case EMPLOYMENT_END -> employmentEnd(chain);
                case NEXT_OF_KIND -> {
                    Instant following = next.get(stated(chain).id());
                    yield following == null ? null : day(following);
                }
            };
        }

        private LocalDate lastEntry(RetentionRule rule, List<KeptVersions.Version> chain, LocalDate made) {
            LocalDate last = made;
            for (KeptVersions.Version one : chain) {
                Instant entry = one.kind() != Kind.EXPOSURE_RESULT
                        ? entries.getOrDefault(rule, Map.of()).get(one.subject())
                        : one.person() != null ? ofPersons.get(one.person()) : ofTasks.get(one.subject());
                if (entry != null && day(entry).isAfter(last)) {
                    last = day(entry);
                }
            }
            return last;
        }

        /** The latest end of all whom a version names; none while one of them is employed. */
        private @Nullable LocalDate employmentEnd(List<KeptVersions.Version> chain) {
            LocalDate last = null;
            for (UUID worker : workers(chain)) {
                LocalDate end = left.get(worker);
                if (end == null) {
                    return null;
                }
                last = last == null || end.isAfter(last) ? end : last;
            }
            return last;
        }

        private Set<UUID> workers(List<KeptVersions.Version> chain) {
            return chain.stream()
                    .map(one -> one.kind().subject() == Subject.WORKER
                            ? one.subject()
                            : one.person() == null ? null : numbers.get(one.person()))
                    .filter(Objects::nonNull)
                    .collect(Collectors.toSet());
        }

        /** A hold covers what is recorded about its thing, and what names it. */
        private List<Told<LegalHold>> held(List<KeptVersions.Version> chain) {
            return open.stream()
                    .filter(hold -> hold.subject().equals(id.value())
                            || workers(chain).contains(hold.subject())
                            || chain.stream().anyMatch(one -> names(one, hold.subject())))
                    .toList();
        }

        private static boolean names(KeptVersions.Version one, UUID thing) {
            return one.subject().equals(thing)
                    || thing.equals(one.item())
                    || thing.toString().equals(one.says().get("task"));
        }

        private KeepUntil.@Nullable InUse inUse(List<KeptVersions.Version> chain) {
            KeptVersions.Version stated = stated(chain);
            if (stated.withdrawal()) {
                return null;
            }
            return switch (stated.kind()) {
                case CUSTODY -> KeepUntil.InUse.WHOLE_HISTORY;
                case DEFECT -> isOpen(chain) ? KeepUntil.InUse.OPEN : unlessExamined(stated);
                case PRE_USE_CHECK -> next.containsKey(stated.id()) ? unlessExamined(stated) : KeepUntil.InUse.NEWEST;
                case EXPOSURE_RESULT -> isRestated(stated) ? null : KeepUntil.InUse.NOT_RESTATED;
                case SYMPTOM_REPORT -> isOpen(chain) ? KeepUntil.InUse.OPEN : unlessFollowed(stated);
                default -> unlessFollowed(stated);
            };
        }

        /** What began it and what ended it go together, the beginning first. */
        private boolean isOpen(List<KeptVersions.Version> chain) {
            UUID ends = stated(chain).item();
            return ends == null ? chain.stream().noneMatch(one -> ended.contains(one.id())) : present.contains(ends);
        }

        private KeepUntil.@Nullable InUse unlessExamined(KeptVersions.Version stated) {
            Instant last = examined.get(stated.subject());
            return last != null && last.isAfter(stated.from()) ? null : KeepUntil.InUse.NOT_EXAMINED;
        }

        private boolean isRestated(KeptVersions.Version stated) {
            LocalDate since = resultsSince.get(stated.subject());
            return since != null && day(stated.from()).isBefore(since);
        }

        private KeepUntil.@Nullable InUse unlessFollowed(KeptVersions.Version stated) {
            boolean gone = stated.kind().subject() == Subject.WORKER && hasLeft(stated.subject());
            return gone || next.containsKey(stated.id()) ? null : KeepUntil.InUse.NEWEST;
        }

        private boolean hasLeft(UUID worker) {
            LocalDate last = left.get(worker);
            return last != null && last.isBefore(day(now));
        }

        private LocalDate day(Instant instant) {
            return Days.of(instant, site.zone());
        }
    }
}
