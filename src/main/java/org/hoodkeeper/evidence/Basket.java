package org.hoodkeeper.evidence;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.hoodkeeper.calculation.wash.Disinfectant;
import org.hoodkeeper.calculation.wash.WashMethod;
import org.hoodkeeper.calculation.wash.WashedPart;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What the parts of sets bear in the wash: by each model's own data, place by place, with the part that is fitted there. */
@Component
class Basket {

    /** Where no maker sets a limit: 29 CFR 1910.134, appendix B-2, water of 43 °C (110 °F) at most. */
    private static final BigDecimal WARM = new BigDecimal("43");

    private final Known known;

    Basket(Known known) {
        this.known = known;
    }

    /**
     * One place of a set, as it goes into the basket.
     *
     * @param slot the model's name for the place; none for the set as a whole
     * @param part code of the fitted part; none where none is on record
     * @param since when it was fitted; {@link Instant#MIN} where that is not on record: everything counts
     */
    record Place(
            @Nullable String slot,
            @Nullable String part,
            Instant since,
            @Nullable PartCare care,
            ModelData model) {

        /** As a person names it: {@code visor V-20}. */
        String name() {
            return part == null ? Objects.requireNonNullElse(slot, "") : slot + " " + part;
        }

        BigDecimal hottest() {
            BigDecimal own = care == null ? null : care.maxCelsius();
            BigDecimal all = model.maxWashCelsius();
            if (own == null || all == null) {
                return own == null ? Objects.requireNonNullElse(all, WARM) : own;
            }
            return own.min(all);
        }

        /** Bears what the set as a whole bears, and nothing less. */
        boolean isLikeTheSet() {
            return slot != null && (care == null || care.maxCelsius() == null);
        }

        WashedPart washed(String label) {
            return new WashedPart((label + " " + name()).strip(), hottest(), bears(), methods());
        }

        /** The model's products are those that all parts bear: a part of its own may bear fewer, and never more. */
        private Map<String, Integer> bears() {
            Map<String, Integer> bears = new HashMap<>();
            List<PartCare.Bears> own = care == null ? List.of() : care.products();
            for (ModelData.Product product : model.products()) {
                if (own.isEmpty()) {
                    bears.put(product.code(), WashedPart.NO_LIMIT);
                } else {
                    own.stream()
                            .filter(one -> one.code().equals(product.code()))
                            .forEach(one ->
                                    bears.put(one.code(), one.longest() == null ? WashedPart.NO_LIMIT : one.longest()));
                }
            }
            return bears;
        }

        boolean lists(String product) {
            return model.products().stream().anyMatch(one -> one.code().equals(product));
        }

        private Set<WashMethod> methods() {
            Set<PartCare.Bath> own = care == null ? Set.of() : care.methods();
            return own.isEmpty()
                    ? EnumSet.allOf(WashMethod.class)
                    : own.stream().map(bath -> WashMethod.valueOf(bath.name())).collect(Collectors.toSet());
        }
    }

    /** The set as a whole and each of its places; nothing where the model is unknown. */
    List<Place> places(SiteId site, SetId set, Instant at) {
        ModelData model = known.modelOf(site, set, at);
        if (model == null) {
            return List.of();
        }
        List<Told<PartChange>> changes = model.slots().isEmpty()
                ? List.of()
                : known.newest(site, PartChange.class, Kind.PART_CHANGE, set).stream()
                        .filter(told -> !told.from().isAfter(at))
                        .toList();
        List<Place> places = new ArrayList<>();
        places.add(new Place(null, null, Instant.MIN, null, model));
        for (ModelData.Slot slot : model.slots()) {
            Told<PartChange> fitted = changes.stream()
                    .filter(told -> slot.name().equals(told.scope()))
                    .findFirst()
                    .orElse(null);
            places.add(new Place(
                    slot.name(),
                    fitted == null ? null : fitted.fact().part(),
                    fitted == null ? Instant.MIN : fitted.from(),
                    slot.care(),
                    model));
        }
        return places;
    }

    /** What is washed of those sets; places that are never washed are left out. */
    List<WashedPart> parts(SiteId site, Map<SetId, String> labels, Instant at) {
        List<WashedPart> parts = new ArrayList<>();
        labels.forEach((set, label) -> places(site, set, at).stream()
                .filter(place -> place.care() == null || !place.care().neverWashed())
                .forEach(place -> parts.add(place.washed(label))));
        return parts;
    }

    /** Whether of one of the sets no maker's limit is on record. */
    boolean isLimitUnknown(SiteId site, List<SetId> sets, Instant at) {
        return sets.stream()
                .flatMap(set -> places(site, set, at).stream())
                .anyMatch(place -> place.slot() == null && place.model().maxWashCelsius() == null);
    }

    /** Places that are pulled before the basket is filled, by set. */
    List<String> pulledFirst(SiteId site, List<SetId> sets, Instant at) {
        return sets.stream()
                .flatMap(set -> places(site, set, at).stream())
                .filter(place -> place.care() != null && place.care().neverWashed())
                .map(place -> Objects.requireNonNullElse(place.slot(), ""))
                .distinct()
                .toList();
    }

    /** Every product that one of the models names, each with its strongest solution and longest contact among them. */
    List<Disinfectant> products(SiteId site, List<SetId> sets, Instant at) {
        Map<String, Disinfectant> products = new LinkedHashMap<>();
        for (SetId set : sets) {
            ModelData model = known.modelOf(site, set, at);
            for (ModelData.Product one : model == null ? List.<ModelData.Product>of() : model.products()) {
                Disinfectant needs = new Disinfectant(one.code(), one.strength(), one.basis(), one.wetSeconds());
                products.merge(one.code(), needs, Basket::stricter);
            }
        }
        return List.copyOf(products.values());
    }

    private static Disinfectant stricter(Disinfectant one, Disinfectant other) {
        return new Disinfectant(
                one.code(),
                one.strength().max(other.strength()),
                one.basis(),
                Math.max(one.wetSeconds(), other.wetSeconds()));
    }

    /** Holds on the set for each of its parts that the water was too hot for; what is never washed was pulled. */
    List<Draft> tooHot(SiteId site, SetId set, BigDecimal celsius, Instant at) {
        List<String> reasons = new ArrayList<>();
        for (Place place : washed(site, set, at)) {
            BigDecimal most = place.hottest();
            if (!place.isLikeTheSet() && celsius.compareTo(most) > 0) {
                reasons.add(place.name() + ": " + celsius.toPlainString() + " °C > " + most.toPlainString() + " °C");
            }
        }
        return held(set, reasons, at);
    }

    /**
     * Holds for each part that does not bear the product, or not for so long: it may be spoilt, and is looked at first. A product
     * that the maker does not list at all is not borne by the set as a whole; where the maker lists none, nothing is known.
     */
    List<Draft> spoilt(SiteId site, SetId set, String product, int wetSeconds, Instant at) {
        List<String> reasons = new ArrayList<>();
        for (Place place : washed(site, set, at)) {
            if (place.model().products().isEmpty() || (!place.lists(product) && place.slot() != null)) {
                continue;
            }
            Integer longest = place.bears().get(product);
            if (longest == null) {
                reasons.add(place.name() + ": " + product);
            } else if (wetSeconds > longest) {
                reasons.add(place.name() + ": " + product + " " + wetSeconds + " s > " + longest + " s");
            }
        }
        return held(set, reasons, at);
    }

    /** Holds for each part that this wash, not yet on record, takes over the washes it bears. */
    List<Draft> tooOften(SiteId site, SetId set, Instant at) {
        List<String> reasons = new ArrayList<>();
        for (Place place : washed(site, set, at)) {
            Integer most = place.care() == null ? null : place.care().cycles();
            if (most != null) {
                long cycles = 1
                        + known.newest(site, Cleaning.class, Kind.CLEANING, set).stream()
                                .filter(told -> told.fact().method() != Cleaning.Method.WIPE)
                                .filter(told -> told.from().isAfter(place.since()))
                                .filter(told -> !told.from().isAfter(at))
                                .count();
                if (cycles > most) {
                    reasons.add(place.name() + ": " + cycles + " > " + most);
                }
            }
        }
        return held(set, reasons, at);
    }

    private List<Place> washed(SiteId site, SetId set, Instant at) {
        return places(site, set, at).stream()
                .filter(place -> place.care() == null || !place.care().neverWashed())
                .toList();
    }

    /** One hold, however many parts: all of them are named. Parts of which the set itself says the same are left unsaid. */
    private static List<Draft> held(SetId set, List<String> reasons, Instant at) {
        if (reasons.isEmpty()) {
            return List.of();
        }
        String reason = reasons.stream()
                .map(one -> one.startsWith(": ") ? one.substring(2) : one)
                .collect(Collectors.joining("; "));
        return List.of(Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.QUARANTINE, reason), set, at));
    }

    static List<PartCare.Bath> baths(Set<WashMethod> methods) {
        return Arrays.stream(PartCare.Bath.values())
                .filter(bath -> methods.contains(WashMethod.valueOf(bath.name())))
                .toList();
    }
}
