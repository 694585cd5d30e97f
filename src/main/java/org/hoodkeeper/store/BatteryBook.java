package org.hoodkeeper.store;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.assessment.BatteryTime;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Dossiers;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How long the batteries of a set ran, test by test, and how long that of each set runs now. */
@Service
@Transactional(readOnly = true)
public class BatteryBook {

    /** More tests of one set than anybody makes. */
    private static final int MOST = 500;

    private final History history;
    private final SiteRegister sites;
    private final Dossiers dossiers;
    private final Kit kit;

    BatteryBook(History history, SiteRegister sites, Dossiers dossiers, Kit kit) {
        this.history = history;
        this.sites = sites;
        this.dossiers = dossiers;
        this.kit = kit;
    }

    /**
     * How long the battery of each set runs, by label; sets without a battery or a model are left out.
     *
     * @param load part of the time that is left in the conditions that are planned for, above 0 and at most 1
     */
    public Map<String, BatteryTime> times(SiteId siteId, Collection<String> labels, BigDecimal load, Instant now) {
        Site site = sites.get(siteId);
        Map<SetId, String> sets = new LinkedHashMap<>();
        for (KitSet set : kit.sets(siteId)) {
            if (labels.contains(set.label())) {
                sets.put(set.id(), set.label());
            }
        }
        Dossiers.Loaded loaded = dossiers.load(
                site,
                new Dossiers.Wanted(List.of(), List.of(), sets.keySet(), Map.of()),
                new Interval(now, now.plusSeconds(1)),
                now);
        Map<String, BatteryTime> times = new HashMap<>();
        sets.forEach((set, label) -> {
            SetData data = loaded.data(set);
            ModelData model = data == null ? null : model(loaded, data, now);
            if (model != null && model.type().hasBlower()) {
                times.put(
                        label,
                        BatteryTime.of(loaded.rules().at(now), load, model, loaded.set(set, label), now, site.zone()));
            }
        });
        return times;
    }

    private static @Nullable ModelData model(Dossiers.Loaded loaded, SetData data, Instant now) {
        return loaded.model(data.model(), "").data().stream()
                .filter(told -> !told.from().isAfter(now))
                .map(Told::fact)
                .findFirst()
                .orElse(null);
    }

    /**
     * @param percentOfNew of the maker's figure, rounded down; none where the maker's is unknown
     * @param toRetire whether it falls below what the site has decided
     * @param counts whether the set is judged by it: at most one is, that of the weakest battery
     */
    public record Line(Told<BatteryTest> test, @Nullable Integer percentOfNew, boolean toRetire, boolean counts) {}

    /** Newest first, those that still count. */
    public List<Line> of(SiteId siteId, ShelfSet set, Instant now) {
        Site site = sites.get(siteId);
        ModelData model = set.modelData();
        Dossiers.Loaded loaded = dossiers.load(
                site,
                new Dossiers.Wanted(List.of(), List.of(), List.of(set.id()), Map.of()),
                new Interval(now, now.plusSeconds(1)),
                now);
        InForce rules = loaded.rules().at(now);
        Told<BatteryTest> counting = model == null
                ? null
                : BatteryTime.of(
                                rules,
                                BatteryTime.load(rules),
                                model,
                                loaded.set(set.id(), set.label()),
                                now,
                                site.zone())
                        .test();
        List<Line> lines = new ArrayList<>();
        for (History.Version version : history.of(siteId, set.id(), Set.of(Kind.BATTERY_TEST), now, MOST)) {
            if (version.isCurrent() && version.told().fact() instanceof BatteryTest test) {
                @SuppressWarnings("unchecked")
                Told<BatteryTest> told = (Told<BatteryTest>) version.told();
                lines.add(new Line(
                        told,
                        model == null ? null : BatteryTime.percentOfNew(test, model),
                        model != null && BatteryTime.isToRetire(rules, test, model),
                        counting != null && counting.id().equals(told.id())));
            }
        }
        return List.copyOf(lines);
    }
}
