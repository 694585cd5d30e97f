package org.hoodkeeper.reporting;

import java.io.IOException;
import java.io.InputStream;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.assessment.Dossier;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.rules.RuleSetFile;
import org.hoodkeeper.rules.SiteRules;

/** Files in memory, cut as the loader cuts them, from records told one by one: a corrected one goes as its correction comes. */
public final class BenchFiles {

    private final Site site;
    private final List<Told<Fact>> told = new ArrayList<>();
    private Dossiers.Loaded loaded;

    public BenchFiles(Site site) {
        this.site = site;
    }

    public RecordId tell(Instant at, Draft draft, boolean withdrawal) {
        RecordId id = new RecordId(new UUID(0x7000L, told.size() + 1L));
        if (draft.corrects() != null) {
            told.removeIf(one -> one.id().equals(draft.corrects()));
        }
        if (!withdrawal) {
            told.add(new Told<>(
                    id,
                    draft.subject(),
                    draft.item(),
                    draft.scope(),
                    draft.from(),
                    draft.until(),
                    at,
                    draft.corrects(),
                    draft.fact()));
        }
        return id;
    }

    /** Call once when everything is told. */
    public void close() throws IOException {
        Records records = new Records();
        told.forEach(one -> records.add(Kind.of(one.fact()), one));
        records.sort();
        try (InputStream rules = BenchFiles.class.getResourceAsStream("/rule-sets/uk-2026-5.yaml")) {
            SiteRules book = new SiteRules(
                    site.zone(),
                    site.firstRuleSet(),
                    List.of(RuleSetFile.parse(rules)),
                    records.<SiteDecision>about(site.id().value(), Kind.SITE_DECISION));
            loaded = new Dossiers.Loaded(
                    site, records, book, new RecordLoader.Cut(site.id(), Instant.EPOCH, Instant.MAX, Instant.MAX));
        }
    }

    public Dossier dossier(WorkerId worker, TaskId task, SetId set, String label, ModelId model, String code) {
        return loaded.dossier(worker, task, set, label, model, code);
    }
}
