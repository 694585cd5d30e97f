package org.hoodkeeper.oversight;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.Period;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.evidence.LegalHolds;
import org.hoodkeeper.facts.Erasure;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Eraser;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.SiteRegister;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What may be erased on a day, erasing it, and what tells of it afterwards. */
@Service
@Transactional
public class Erasures {

    /** As many as somebody can look over. */
    public static final int MOST = 100;

    private static final int LOOKED_AT = 1_000;
    private static final int MOST_TOLD = 200;

    private final Retentions retentions;
    private final KeptVersions versions;
    private final LegalHolds holds;
    private final Eraser eraser;
    private final History history;
    private final SiteRegister sites;

    Erasures(
            Retentions retentions,
            KeptVersions versions,
            LegalHolds holds,
            Eraser eraser,
            History history,
            SiteRegister sites) {
        this.retentions = retentions;
        this.versions = versions;
        this.holds = holds;
        this.eraser = eraser;
        this.history = history;
        this.sites = sites;
    }

    /**
     * A record that nothing asks for any longer.
     *
     * @param record the first of its chain
     * @param subject whom or what it is about
     * @param from when it was true
     * @param versions how many go with it, itself included
     */
    public record Due(RecordId record, UUID subject, Instant from, int versions, KeepUntil kept) {}

    /**
     * @param due the oldest of them
     * @param further from where to look on; none when every record that is old enough was looked at
     */
    public record Looked(List<Due> due, @Nullable Place further) {}

    /**
     * A place in the order in which records are looked at; the record itself may be gone by the time somebody looks on. Many were
     * true at one instant where a file brought them in.
     */
    public record Place(Instant from, RecordId record) {

        private static final String APART = "_";

        /** As an address has it. */
        public String text() {
            return from + APART + record;
        }

        /** @return none for what is no place */
        public static @Nullable Place of(String text) {
            String[] parts = text.split(APART, 2);
            try {
                return new Place(Instant.parse(parts[0]), new RecordId(UUID.fromString(parts[parts.length - 1])));
            } catch (DateTimeException | IllegalArgumentException nonsense) {
                return null;
            }
        }
    }

    /** An erasure as it was told. */
    public record Done(RecordId record, Instant at, AccountId by, Erasure told) {}

    /**
     * What may be erased on the day of an instant, the oldest first.
     *
     * @param after look at records behind this place; none for all
     */
    @Transactional(readOnly = true)
    public Looked due(SiteId site, Kind kind, @Nullable Place after, Instant now) {
        LocalDate today = Days.of(now, zone(site));
        Period shortest = retentions.shortest(site, kind, now);
        if (shortest == null) {
            return new Looked(List.of(), null);
        }
        Instant before = Days.startOf(today.minus(shortest), zone(site));
        List<UUID> old = versions.oldest(site, kind, after, before, LOOKED_AT);
        Map<UUID, List<KeptVersions.Version>> chains = versions.chains(site, old);
        List<Due> due = new ArrayList<>();
        Map<UUID, KeepUntil> judged = retentions.judged(site, chains, now);
        Place last = null;
        for (UUID root : old) {
            List<KeptVersions.Version> chain = Objects.requireNonNull(chains.get(root));
            last = new Place(chain.get(0).from(), new RecordId(root));
            KeepUntil kept = Objects.requireNonNull(judged.get(root));
            if (kept.mayBeErasedOn(today)) {
                due.add(new Due(
                        new RecordId(root),
                        chain.get(chain.size() - 1).subject(),
                        chain.get(chain.size() - 1).from(),
                        chain.size(),
                        kept));
            }
            if (due.size() == MOST) {
                return new Looked(due, last);
            }
        }
        return new Looked(due, old.size() == LOOKED_AT ? last : null);
    }

    /**
     * Erases records with all their corrections, all or none. Told is one erasure for each kind and rule.
     *
     * @param records any version of each
     * @param now its day decides
     * @return what tells of it
     * @throws NotFound {@code record.unknown}
     * @throws Refused {@code erasure.notEntitled}; {@code erasure.records.missing} for none, {@code erasure.records.many} for more
     *     than {@link #MOST}; {@code erasure.twice} when one was erased before; {@code erasure.held} under a legal hold;
     *     {@code erasure.unknown} where no rule says how long; {@code erasure.noEnd}, {@code erasure.kept} while a rule asks for it;
     *     {@code erasure.inUse} while today's answers may rest on it
     */
    public List<RecordId> erase(Viewer viewer, Collection<RecordId> records, Instant now) {
        if (records.isEmpty()) {
            throw new Refused("erasure.records.missing");
        }
        if (records.size() > MOST) {
            throw new Refused("erasure.records.many", records.size(), MOST);
        }
        SiteId site = viewer.site();
        holds.alone(site);
        LocalDate today = Days.of(now, zone(site));
        Map<UUID, List<KeptVersions.Version>> chains = versions.chains(site, roots(site, records, now));
        Map<UUID, KeepUntil> judged = retentions.judged(site, chains, now);
        if (judged.values().stream().anyMatch(kept -> !mayErase(viewer, kept.kind()))) {
            throw new Refused("erasure.notEntitled");
        }
        judged.values().forEach(kept -> refuse(kept, today));
        List<RecordId> told = new ArrayList<>();
        grouped(chains, judged).forEach((ended, gone) -> {
            LocalDate lastDay = gone.stream()
                    .map(root -> Objects.requireNonNull(
                            Objects.requireNonNull(judged.get(root)).lastDay()))
                    .max(LocalDate::compareTo)
                    .orElseThrow();
            List<UUID> all = gone.stream()
                    .flatMap(root -> Objects.requireNonNull(chains.get(root)).stream())
                    .map(KeptVersions.Version::id)
                    .toList();
            told.add(eraser.erase(Author.at(viewer), ended.kind(), ended.rule(), lastDay, all, now));
        });
        return told;
    }

    /** The safety officer; what nobody but the health role may know of, that role alone. */
    public static boolean mayErase(Viewer viewer, Kind kind) {
        return viewer.is(kind == Kind.SYMPTOM_REPORT ? Role.HEALTH : Role.OFFICER);
    }

    private record Ended(Kind kind, String rule) {}

    private static Map<Ended, List<UUID>> grouped(
            Map<UUID, List<KeptVersions.Version>> chains, Map<UUID, KeepUntil> judged) {
        Map<Ended, List<UUID>> groups = new LinkedHashMap<>();
        for (UUID root : chains.keySet()) {
            KeepUntil kept = Objects.requireNonNull(judged.get(root));
            String rule = Objects.requireNonNull(kept.deciding()).rule().code();
            groups.computeIfAbsent(new Ended(kept.kind(), rule), any -> new ArrayList<>())
                    .add(root);
        }
        return groups;
    }

    private Set<UUID> roots(SiteId site, Collection<RecordId> records, Instant now) {
        Map<UUID, UUID> roots =
                versions.roots(site, records.stream().map(RecordId::value).toList());
        for (RecordId record : records) {
            if (!roots.containsKey(record.value())) {
                Done done = erasureOf(site, record, now);
                throw done == null
                        ? new NotFound("record.unknown", record)
                        : new Refused("erasure.twice", done.at(), done.told().rule());
            }
        }
        return Set.copyOf(roots.values());
    }

    private static void refuse(KeepUntil kept, LocalDate today) {
        if (kept.isHeld()) {
            throw new Refused("erasure.held", kept.kind(), kept.holds().get(0).from());
        }
        KeepUntil.Applied deciding = kept.deciding();
        if (deciding == null) {
            throw new Refused("erasure.unknown", kept.kind());
        }
        String rule = deciding.rule().provenance().clause();
        LocalDate last = kept.lastDay();
        if (last == null) {
            throw new Refused("erasure.noEnd", kept.kind(), rule);
        }
        if (!today.isAfter(last)) {
            throw new Refused("erasure.kept", kept.kind(), last, rule);
        }
        if (kept.inUse() != null) {
            throw new Refused("erasure.inUse", kept.kind(), kept.inUse());
        }
    }

    /** What tells of the erasure of a record; none where it was never erased. */
    @Transactional(readOnly = true)
    public @Nullable Done erasureOf(SiteId site, RecordId record, Instant now) {
        RecordId erasure = eraser.erasureOf(site, record);
        History.Version told = erasure == null ? null : history.find(site, erasure, now);
        return told == null ? null : done(told);
    }

    /** Every erasure, the newest first; the oldest of very many are left out. */
    @Transactional(readOnly = true)
    public List<Done> done(SiteId site, Instant now) {
        return history.of(site, List.of(Kind.ERASURE), now, MOST_TOLD).stream()
                .map(Erasures::done)
                .toList();
    }

    private static Done done(History.Version version) {
        return new Done(version.told().id(), version.told().recordedAt(), version.toldBy(), (Erasure)
                version.told().fact());
    }

    private ZoneId zone(SiteId site) {
        return sites.get(site).zone();
    }
}
