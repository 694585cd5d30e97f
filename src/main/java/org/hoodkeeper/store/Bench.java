package org.hoodkeeper.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.assessment.Dossier;
import org.hoodkeeper.assessment.OpenWash;
import org.hoodkeeper.assessment.Readiness;
import org.hoodkeeper.assessment.SetFile;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.kit.Model;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Dossiers;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** What stands on the shelves: every set with its readiness, in the same number of statements however many there are. */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Bench {

    /** Stands for the model of a set of which nothing is on record. */
    private static final ModelId NO_MODEL = new ModelId(new UUID(0, 0));

    private final Kit kit;
    private final SiteRegister sites;
    private final Dossiers dossiers;

    Bench(Kit kit, SiteRegister sites, Dossiers dossiers) {
        this.kit = kit;
        this.sites = sites;
        this.dossiers = dossiers;
    }

    /** Every set of the site: what needs doing first, then by label. */
    public List<ShelfSet> of(SiteId site, Instant at) {
        return load(site, kit.sets(site), at, at).stream()
                .sorted(Comparator.comparing(ShelfSet::state).thenComparing(ShelfSet::label))
                .toList();
    }

    /** @throws org.hoodkeeper.kernel.NotFound {@code set.unknown} */
    public ShelfSet one(SiteId site, String label, Instant at) {
        return one(site, label, at, at);
    }

    /**
     * @param knownAt told by then decides; not before {@code at}, for a later event may undo what was known
     * @throws org.hoodkeeper.kernel.NotFound {@code set.unknown}
     */
    public ShelfSet one(SiteId site, String label, Instant at, Instant knownAt) {
        return load(site, List.of(kit.set(site, label)), at, knownAt).get(0);
    }

    /** The models that the maker has said something of by then, by code. */
    public List<ShelfModel> models(SiteId siteId, Instant at) {
        Map<ModelId, String> models = codes(siteId);
        Dossiers.Loaded loaded = load(siteId, List.of(), models, at, at);
        List<ShelfModel> known = new ArrayList<>();
        models.forEach((id, code) -> {
            ModelData data = latest(loaded.model(id, code).data(), at);
            if (data != null) {
                known.add(new ShelfModel(id, code, data));
            }
        });
        known.sort(Comparator.comparing(ShelfModel::code));
        return known;
    }

    private Map<ModelId, String> codes(SiteId site) {
        Map<ModelId, String> models = new HashMap<>();
        for (Model model : kit.models(site)) {
            models.put(model.id(), model.code());
        }
        return models;
    }

    private Dossiers.Loaded load(
            SiteId site, List<SetId> sets, Map<ModelId, String> models, Instant at, Instant knownAt) {
        return dossiers.load(
                sites.get(site),
                new Dossiers.Wanted(List.of(), List.of(), sets, models),
                new Interval(at, at.plusSeconds(1)),
                knownAt);
    }

    private List<ShelfSet> load(SiteId siteId, List<KitSet> sets, Instant at, Instant knownAt) {
        Map<ModelId, String> models = codes(siteId);
        Dossiers.Loaded loaded = load(siteId, sets.stream().map(KitSet::id).toList(), models, at, knownAt);
        List<ShelfSet> shelf = new ArrayList<>();
        for (KitSet set : sets) {
            shelf.add(judged(siteId, set, loaded, models, at));
        }
        return shelf;
    }

    private static ShelfSet judged(
            SiteId site, KitSet set, Dossiers.Loaded loaded, Map<ModelId, String> models, Instant at) {
        SetData data = loaded.data(set.id());
        ModelId model = data == null ? NO_MODEL : data.model();
        String code = models.getOrDefault(model, "");
        Dossier dossier = loaded.dossier(Readiness.ANYBODY, Readiness.NO_TASK, set.id(), set.label(), model, code);
        SetFile file = Objects.requireNonNull(dossier.set(), "asked for with its label");
        OpenWash wash = OpenWash.of(file, at);
        return new ShelfSet(
                set.id(),
                set.label(),
                code,
                data,
                latest(dossier.model().data(), at),
                file.custody().stream()
                        .filter(told -> !told.from().isAfter(at))
                        .findFirst()
                        .orElse(null),
                wash == null || wash.left() ? null : wash.last(),
                Readiness.of(site, dossier, at));
    }

    private static @Nullable ModelData latest(List<Told<ModelData>> newestFirst, Instant at) {
        return newestFirst.stream()
                .filter(told -> !told.from().isAfter(at))
                .map(Told::fact)
                .findFirst()
                .orElse(null);
    }
}
