package org.hoodkeeper.web.worker;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Task;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/**
 * What the site holds about the reader, the own medical outcome included. The note of a symptom report is shown to whoever wrote
 * it: what the health role or somebody else wrote is theirs.
 */
@Component
class MyRecords {

    /** So many of the newest are shown. */
    private static final int MOST = 200;

    private final History history;
    private final Kit kit;
    private final Programme programme;
    private final Words words;
    private final Show show;

    MyRecords(History history, Kit kit, Programme programme, Words words, Show show) {
        this.history = history;
        this.kit = kit;
        this.programme = programme;
        this.words = words;
        this.show = show;
    }

    /**
     * @param what the record's content in words; none where the kind says it all
     * @param struck replaced or withdrawn since
     */
    public record Line(String kind, @Nullable String what, String when, String told, boolean struck) {}

    /** @param isCut there are older ones than these */
    public record Newest(List<Line> lines, boolean isCut) {}

    Newest of(Visit visit, Worker worker, Instant now) {
        SiteId site = visit.viewer().site();
        List<History.Version> versions = history.of(site, worker.id(), now, MOST + 1);
        Map<UUID, String> names = names(site, versions);
        List<Line> lines = versions.stream()
                .limit(MOST)
                .map(version -> new Line(
                        words.say(Words.kindKey(version.kind())),
                        what(visit, version, names),
                        when(visit, version.told()),
                        show.instant(version.told().recordedAt(), visit.zone()),
                        !version.isCurrent()))
                .toList();
        return new Newest(lines, versions.size() > MOST);
    }

    /** Says that something was recorded; none where the text names no record that the reader told. */
    @Nullable String done(Visit visit, @Nullable String record, Instant now) {
        if (record == null) {
            return null;
        }
        History.Version version = history.find(visit.viewer().site(), Sheets.recordId(record), now);
        return version == null || !version.toldBy().equals(visit.viewer().account())
                ? null
                : words.say(
                        "today.done",
                        version.kind(),
                        show.instant(version.told().recordedAt(), visit.zone()));
    }

    /** Of the sets that these records name, not of all that the site has, and of its tasks. */
    private Map<UUID, String> names(SiteId site, List<History.Version> versions) {
        Set<UUID> named = new HashSet<>();
        for (History.Version version : versions) {
            named.add(version.told().subject());
            if (version.told().item() != null) {
                named.add(version.told().item());
            }
        }
        Map<UUID, String> names = new HashMap<>();
        for (KitSet set : kit.sets(site, named)) {
            names.put(set.id().value(), set.label());
        }
        for (Task task : programme.tasks(site)) {
            names.put(task.id().value(), task.code());
        }
        return names;
    }

    private String when(Visit visit, Told<?> told) {
        return told.until() == null
                ? show.instant(told.from(), visit.zone())
                : show.interval(told.from(), told.until(), visit.zone());
    }

    private @Nullable String what(Visit visit, History.Version version, Map<UUID, String> names) {
        Told<?> told = version.told();
        String other = names.getOrDefault(told.subject(), told.item() == null ? null : names.get(told.item()));
        if (told.fact() instanceof MedicalOutcome outcome) {
            return outcome(outcome);
        }
        if (told.fact() instanceof SymptomReport report) {
            return version.toldBy().equals(visit.viewer().account()) ? report.note() : null;
        }
        if (told.fact() instanceof Training training) {
            return passed(told.scope(), training.outcome());
        }
        if (told.fact() instanceof FitTest test) {
            return passed(told.scope(), test.outcome());
        }
        if (told.fact() instanceof PreUseCheck check) {
            boolean good = check.passed() && check.placement() != Outcome.FAIL;
            return passed(other, good ? Outcome.PASS : Outcome.FAIL);
        }
        if (told.fact() instanceof Wear wear) {
            return words.say(
                    "mine.wear." + wear.step().name(),
                    other,
                    names.get(wear.task().value()));
        }
        if (told.fact() instanceof Custody custody) {
            return words.say("mine.custody." + custody.claim().name(), other);
        }
        return told.scope() == null || told.scope().isEmpty() ? other : told.scope();
    }

    private String passed(@Nullable String what, Outcome outcome) {
        return words.say("mine.outcome." + outcome.name(), what);
    }

    private String outcome(MedicalOutcome outcome) {
        List<String> said = new ArrayList<>();
        said.add(words.say("mine.medical." + outcome.result().name()));
        if (!outcome.interfaces().isEmpty()) {
            said.add(words.say("reason.MEDICAL.INTERFACES_ONLY", outcome.interfaces()));
        }
        if (outcome.maxWearMinutes() != null) {
            said.add(words.say("mine.medical.wear", Duration.ofMinutes(outcome.maxWearMinutes())));
        }
        if (outcome.maxWbgt() != null) {
            said.add(words.say("reason.MEDICAL.HEAT_LIMIT", outcome.maxWbgt()));
        }
        if (outcome.maxWorkRate() != null) {
            said.add(words.say("reason.MEDICAL.WORK_RATE_LIMIT", outcome.maxWorkRate()));
        }
        if (outcome.neverAlone()) {
            said.add(words.say("reason.MEDICAL.NEVER_ALONE"));
        }
        if (outcome.reviewOn() != null) {
            said.add(words.say("mine.medical.review", show.untilEndOf(outcome.reviewOn())));
        }
        return String.join(" ", said);
    }
}
