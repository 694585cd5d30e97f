package org.hoodkeeper.evidence;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.assessment.OpenWash;
import org.hoodkeeper.calculation.wash.WashLoad;
import org.hoodkeeper.calculation.wash.WashPlan;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.facts.WashStep.Step;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ids;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Washes of several sets together, step by step in their order. The clocks are the records' own times, so that they outlive a
 * restart. What counts for a set is the disinfection that the last step records for it.
 */
@Service
@Transactional
public class Washes {

    private static final Map<Step, Set<Step>> AFTER = new EnumMap<>(Step.class);

    static {
        AFTER.put(Step.STRIPPED, EnumSet.of(Step.WASHED, Step.BROKEN_OFF));
        AFTER.put(Step.WASHED, EnumSet.of(Step.WETTED, Step.BROKEN_OFF));
        AFTER.put(Step.WETTED, EnumSet.of(Step.RINSED, Step.DRIED_OUT, Step.BROKEN_OFF));
        AFTER.put(Step.DRIED_OUT, EnumSet.of(Step.WETTED, Step.BROKEN_OFF));
        AFTER.put(Step.RINSED, EnumSet.of(Step.DRY, Step.BROKEN_OFF));
        AFTER.put(Step.DRY, EnumSet.noneOf(Step.class));
        AFTER.put(Step.BROKEN_OFF, EnumSet.noneOf(Step.class));
    }

    private final Telling telling;
    private final Known known;
    private final Holds holds;
    private final Basket basket;
    private final Kit kit;

    Washes(Telling telling, Known known, Holds holds, Basket basket, Kit kit) {
        this.telling = telling;
        this.known = known;
        this.holds = holds;
        this.basket = basket;
        this.kit = kit;
    }

    /**
     * A batch with its steps, oldest first; that its sets were stripped is one of them.
     *
     * @param wetSeconds least wet time of the product on it, over all its sets; none before it was wetted
     */
    public record Batch(
            UUID id,
            List<SetId> sets,
            List<Told<WashStep>> steps,
            @Nullable Integer wetSeconds) {

        public Told<WashStep> last() {
            return steps.get(steps.size() - 1);
        }

        public Step at() {
            return last().fact().step();
        }

        /** What can come next; nothing when it is over. */
        public Set<Step> next() {
            return AFTER.getOrDefault(at(), Set.of());
        }

        public boolean isOpen() {
            return !next().isEmpty();
        }

        @Nullable Told<WashStep> newest(Step step) {
            Told<WashStep> newest = null;
            for (Told<WashStep> told : steps) {
                newest = told.fact().step() == step ? told : newest;
            }
            return newest;
        }
    }

    /** Batches that are under way at that time, the newest first; what began more than a week before is not. */
    @Transactional(readOnly = true)
    public List<Batch> open(SiteId site, Instant at) {
        return batches(site, at).stream().filter(Batch::isOpen).toList();
    }

    /** @throws NotFound {@code wash.batch.unknown}, also for one that began more than a week before */
    @Transactional(readOnly = true)
    public Batch batch(SiteId site, UUID id, Instant at) {
        return batches(site, at).stream()
                .filter(batch -> batch.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new NotFound("wash.batch.unknown", id));
    }

    /**
     * The only proper recipe for those sets: lowest temperature, common products with their longest contact, common methods, over
     * all parts that are fitted; those that are never washed are pulled first.
     *
     * @param hottest the hottest water that all parts bear, degrees Celsius; none where nothing is known of the sets
     * @param isLimitUnknown whether of one of them no maker's limit is on record, so that the rule's warm water counts
     * @param products that all parts bear as long as they need; empty where the sets have to be parted
     * @param methods that all parts allow
     * @param pulled places that are never washed
     */
    public record Recipe(
            @Nullable BigDecimal hottest,
            boolean isLimitUnknown,
            List<ModelData.Product> products,
            List<PartCare.Bath> methods,
            List<String> pulled) {

        public boolean isPossible() {
            return !products.isEmpty() && !methods.isEmpty();
        }
    }

    /** Of sets whose model is unknown nothing is known: there is no recipe. */
    @Transactional(readOnly = true)
    public Recipe recipe(SiteId site, List<SetId> sets, Instant at) {
        boolean known = sets.stream().allMatch(set -> this.known.modelOf(site, set, at) != null);
        WashLoad load = WashPlan.load(basket.parts(site, labels(site, sets), at), basket.products(site, sets, at));
        List<ModelData.Product> products = load.products().stream()
                .map(one -> new ModelData.Product(one.code(), one.strength(), one.basis(), one.wetSeconds()))
                .toList();
        return new Recipe(
                load.hottest(),
                basket.isLimitUnknown(site, sets, at),
                known ? products : List.of(),
                Basket.baths(load.methods()),
                basket.pulledFirst(site, sets, at));
    }

    /**
     * How to part sets that have no recipe in common: what goes together, load by load, and what bears no product at all.
     *
     * @throws Refused {@code calculation.basket.empty} when nothing is known of the sets
     */
    @Transactional(readOnly = true)
    public WashPlan plan(SiteId site, List<SetId> sets, Instant at) {
        return WashPlan.of(basket.parts(site, labels(site, sets), at), basket.products(site, sets, at));
    }

    private Map<SetId, String> labels(SiteId site, List<SetId> sets) {
        Map<SetId, String> all = new HashMap<>();
        kit.sets(site).forEach(set -> all.put(set.id(), set.label()));
        Map<SetId, String> labels = new LinkedHashMap<>();
        sets.forEach(set -> labels.put(set, all.getOrDefault(set, "")));
        return labels;
    }

    /**
     * Begins a batch: its sets are stripped.
     *
     * @throws Refused {@code wash.sets.missing}, {@code wash.sets.busy} when one is in another open batch, {@code
     *     cleaning.set.impounded}, {@code wash.sets.apart} when their parts have no disinfectant or no method in common: part them
     */
    public UUID begin(Author author, List<SetId> sets, Instant at) {
        if (sets.isEmpty()) {
            throw new Refused("wash.sets.missing");
        }
        telling.take(author.site(), sets.toArray(SetId[]::new));
        List<Batch> open = open(author.site(), at);
        for (SetId set : sets) {
            if (open.stream().anyMatch(batch -> batch.sets().contains(set))) {
                throw new Refused("wash.sets.busy");
            }
            holds.requireNotImpounded(author.site(), set, at, "cleaning.set.impounded");
        }
        if (!recipe(author.site(), sets, at).isPossible()) {
            throw new Refused("wash.sets.apart");
        }
        UUID batch = Ids.next();
        WashStep step = new WashStep(Step.STRIPPED, null, null, null, null);
        telling.tell(
                author,
                sets.stream()
                        .distinct()
                        .map(set -> Draft.of(step, author.site(), at).item(set).scope(batch.toString()))
                        .toList());
        return batch;
    }

    /**
     * The next step of a batch. Water over what a part bears, or a wash more than it bears, puts
     * that set on hold with the part named. The last step records the
     * disinfection of each set.
     *
     * @throws Refused {@code wash.step.order} out of its order, {@code wash.celsius.missing}, {@code wash.product.unknown} for
     *     one that not all sets bear, {@code wash.strength.weak} below the product's own, {@code wash.wet.short} when rinsed
     *     before its time
     */
    public RecordId step(Author author, UUID id, WashStep step, Instant at) {
        Batch batch = batch(author.site(), id, at);
        telling.take(author.site(), batch.sets().toArray(SetId[]::new));
        batch = batch(author.site(), id, at);
        if (!batch.next().contains(step.step())) {
            throw new Refused("wash.step.order", batch.at(), step.step());
        }
        if (at.isBefore(batch.last().from())) {
            throw new Refused("wash.at.early", at, batch.last().from());
        }
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(step, author.site(), at).scope(id.toString()));
        switch (step.step()) {
            case WASHED -> drafts.addAll(tooHot(author.site(), batch, step, at));
            case WETTED -> requireProduct(author.site(), batch, step, at);
            case RINSED -> requireWet(batch, at);
            case DRY -> drafts.addAll(disinfected(author.site(), batch, at));
            default -> {
                // nothing follows from it
            }
        }
        return telling.tell(author, drafts).records().get(0);
    }

    private List<Draft> tooHot(SiteId site, Batch batch, WashStep step, Instant at) {
        BigDecimal celsius = step.celsius();
        if (celsius == null) {
            throw new Refused("wash.celsius.missing");
        }
        return batch.sets().stream()
                .flatMap(set -> basket.tooHot(site, set, celsius, at).stream())
                .toList();
    }

    private void requireProduct(SiteId site, Batch batch, WashStep step, Instant at) {
        ModelData.Product product = recipe(site, batch.sets(), at).products().stream()
                .filter(one -> one.code().equals(step.product()))
                .findFirst()
                .orElseThrow(() -> new Refused("wash.product.unknown", step.product()));
        if (step.strength() == null || step.strength().compareTo(product.strength()) < 0) {
            throw new Refused("wash.strength.weak", product.strength(), product.basis());
        }
    }

    private static void requireWet(Batch batch, Instant at) {
        Told<WashStep> wetted = batch.newest(Step.WETTED);
        int least = batch.wetSeconds() == null ? 0 : batch.wetSeconds();
        if (wetted != null && at.isBefore(wetted.from().plusSeconds(least))) {
            throw new Refused(
                    "wash.wet.short", Duration.between(wetted.from(), at).toSeconds(), least);
        }
    }

    private List<Draft> disinfected(SiteId site, Batch batch, Instant at) {
        Told<WashStep> wetted = batch.newest(Step.WETTED);
        Told<WashStep> rinsed = batch.newest(Step.RINSED);
        Told<WashStep> washed = batch.newest(Step.WASHED);
        if (wetted == null || rinsed == null || washed == null) {
            throw new IllegalStateException("a batch cannot be dry before it was washed, wetted and rinsed");
        }
        int wet = Math.toIntExact(
                Math.min(86_400, Duration.between(wetted.from(), rinsed.from()).toSeconds()));
        Cleaning cleaning = new Cleaning(
                Cleaning.Method.WASH_AND_DISINFECT,
                wetted.fact().product(),
                wetted.fact().strength(),
                wetted.fact().strengthBasis(),
                wet,
                washed.fact().celsius());
        List<Draft> drafts = new ArrayList<>();
        for (SetId set : batch.sets()) {
            drafts.add(Draft.of(cleaning, set, at));
            if (cleaning.product() != null) {
                drafts.addAll(basket.spoilt(site, set, cleaning.product(), wet, at));
            }
            drafts.addAll(basket.tooOften(site, set, at));
        }
        return drafts;
    }

    private List<Batch> batches(SiteId site, Instant at) {
        Map<String, List<Told<WashStep>>> steps = new LinkedHashMap<>();
        Map<String, List<SetId>> stripped = new HashMap<>();
        Instant first = at.minus(OpenWash.LONGEST);
        for (Told<WashStep> told : known.since(site, WashStep.class, Kind.WASH_STEP, site, first)) {
            String batch = told.scope();
            if (batch == null) {
                continue;
            }
            List<Told<WashStep>> ofBatch = steps.computeIfAbsent(batch, any -> new ArrayList<>());
            List<SetId> sets = stripped.computeIfAbsent(batch, any -> new ArrayList<>());
            if (told.item() != null) {
                sets.add(new SetId(told.item()));
            }
            if (told.item() == null || sets.size() == 1) {
                ofBatch.add(0, told);
            }
        }
        List<Batch> batches = new ArrayList<>();
        steps.forEach((batch, told) -> {
            List<SetId> sets = List.copyOf(stripped.getOrDefault(batch, List.of()));
            if (!sets.isEmpty()) {
                batches.add(new Batch(UUID.fromString(batch), sets, told, wetSeconds(site, sets, told)));
            }
        });
        return batches;
    }

    private @Nullable Integer wetSeconds(SiteId site, List<SetId> sets, List<Told<WashStep>> steps) {
        Told<WashStep> last = steps.get(steps.size() - 1);
        String product = null;
        for (Told<WashStep> told : steps) {
            product = told.fact().step() == Step.WETTED ? told.fact().product() : product;
        }
        if (product == null || last.fact().step().isEnd()) {
            return null;
        }
        String code = product;
        return recipe(site, sets, last.from()).products().stream()
                .filter(one -> one.code().equals(code))
                .map(ModelData.Product::wetSeconds)
                .findFirst()
                .orElse(null);
    }
}
