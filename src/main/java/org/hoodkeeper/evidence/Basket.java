package org.hoodkeeper.evidence;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
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

    /** More washes of one set than anybody records while a file is looked at. */
    private static final int MEANWHILE = 100;

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
        return held(set, tooHot(washed(site, set, at), celsius), at);
    }

    private static List<String> tooHot(List<Place> washed, BigDecimal celsius) {
        List<String> reasons = new ArrayList<>();
        for (Place place : washed) {
            BigDecimal most = place.hottest();
            if (!place.isLikeTheSet() && celsius.compareTo(most) > 0) {
                reasons.add(place.name() + ": " + celsius.toPlainString() + " °C > " + most.toPlainString() + " °C");
            }
        }
        return reasons;
    }

    /**
     * Holds for each part that does not bear the product, or not for so long: it may be spoilt, and is looked at first. A product
     * that the maker does not list at all is not borne by the set as a whole; where the maker lists none, nothing is known.
     */
    List<Draft> spoilt(SiteId site, SetId set, String product, int wetSeconds, Instant at) {
        return held(set, spoilt(washed(site, set, at), product, wetSeconds), at);
    }

    private static List<String> spoilt(List<Place> washed, String product, int wetSeconds) {
        List<String> reasons = new ArrayList<>();
        for (Place place : washed) {
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
        return reasons;
    }

    /**
     * Whether {@link #afterFile} may hold the set: what it finds now, or a wash that is recorded by hand meanwhile and takes a counted
     * part over its number.
     *
     * @param told the records of the file
     */
    boolean maySpoil(SiteId site, SetId set, Set<UUID> told) {
        Brought brought = brought(site, set, told);
        return brought != null
                && (brought.isNearItsNumber() || !brought.spoilt().reasons().isEmpty());
    }

    /**
     * The hold on a set for what washes from a file did to the parts that are still in it; a part that was replaced since holds
     * nothing. Judged with the maker's data of the day they were told: a file brings years, and the part is used today. It begins
     * at the first wash that spoilt something.
     *
     * @param told the records of the file
     */
    List<Draft> afterFile(SiteId site, SetId set, Set<UUID> told) {
        Brought brought = brought(site, set, told);
        if (brought == null) {
            return List.of();
        }
        Spoilt spoilt = brought.spoilt();
        return isHeldFrom(site, set, spoilt.first()) ? List.of() : held(set, spoilt.reasons(), spoilt.first());
    }

    /** Nothing where the file brought no wash of that set. */
    private @Nullable Brought brought(SiteId site, SetId set, Set<UUID> told) {
        List<Told<Cleaning>> washes = known.newest(site, Cleaning.class, Kind.CLEANING, set).stream()
                .filter(one -> one.fact().method() != Cleaning.Method.WIPE)
                .toList();
        List<Told<Cleaning>> brought = new ArrayList<>(
                washes.stream().filter(one -> told.contains(one.id().value())).toList());
        if (brought.isEmpty()) {
            return null;
        }
        Collections.reverse(brought);
        return new Brought(washes, brought, washed(site, set, brought.get(0).recordedAt()));
    }

    /** @param reasons each part that did not bear it, none where all did @param first the wash that began it */
    private record Spoilt(List<String> reasons, Instant first) {}

    /**
     * Washes of a set that a file brought.
     *
     * @param all that are on record, newest first
     * @param brought those of the file, oldest first
     * @param places what is washed of the set, as it is now
     */
    private record Brought(List<Told<Cleaning>> all, List<Told<Cleaning>> brought, List<Place> places) {

        /** So few are missing that those recorded while the file is looked at may be too many. */
        boolean isNearItsNumber() {
            Instant last = brought.get(brought.size() - 1).from();
            return places.stream()
                    .anyMatch(place -> tooOften(place, all, MEANWHILE, last).isPresent());
        }

        /** Each part with the hottest water, longest contact and number of washes that it did not bear. */
        Spoilt spoilt() {
            List<String> reasons = new ArrayList<>();
            Instant last = brought.get(brought.size() - 1).from();
            Instant first = last;
            for (Place place : places) {
                List<Told<Cleaning>> since = brought.stream()
                        .filter(wash -> !place.since().isAfter(wash.from()))
                        .toList();
                List<String> spoilt = by(place, since);
                reasons.addAll(spoilt);
                if (!spoilt.isEmpty()) {
                    Instant begun = begun(place, since);
                    first = begun.isBefore(first) ? begun : first;
                }
                if (last.isAfter(place.since())) {
                    tooOften(place, all, 0, last).ifPresent(reasons::add);
                }
            }
            return new Spoilt(reasons, first);
        }

        private static Instant begun(Place place, List<Told<Cleaning>> since) {
            return since.stream()
                    .filter(wash -> !by(place, List.of(wash)).isEmpty())
                    .findFirst()
                    .orElseThrow()
                    .from();
        }

        private static List<String> by(Place place, List<Told<Cleaning>> washes) {
            List<String> reasons = new ArrayList<>();
            washes.stream()
                    .map(wash -> wash.fact().celsius())
                    .filter(Objects::nonNull)
                    .max(Comparator.naturalOrder())
                    .ifPresent(hottest -> reasons.addAll(tooHot(List.of(place), hottest)));
            Map<String, Integer> longest = new LinkedHashMap<>();
            for (Told<Cleaning> wash : washes) {
                Cleaning how = wash.fact();
                if (how.product() != null && how.wetSeconds() != null) {
                    longest.merge(how.product(), how.wetSeconds(), Math::max);
                }
            }
            longest.forEach((product, seconds) -> reasons.addAll(Basket.spoilt(List.of(place), product, seconds)));
            return reasons;
        }
    }

    /** The holds of a site that moves come in a file of their own, the released ones too: none is placed twice. */
    private boolean isHeldFrom(SiteId site, SetId set, Instant at) {
        return known.newest(site, Hold.class, Kind.HOLD, set).stream()
                .anyMatch(told -> told.fact().step() == Hold.Step.PLACED
                        && told.fact().why() == Hold.Why.QUARANTINE
                        && told.from().equals(at));
    }

    /** Holds for each part that this wash, not yet on record, takes over the washes it bears. */
    List<Draft> tooOften(SiteId site, SetId set, Instant at) {
        List<String> reasons = new ArrayList<>();
        for (Place place : washed(site, set, at)) {
            if (place.care() != null && place.care().cycles() != null) {
                tooOften(place, known.newest(site, Cleaning.class, Kind.CLEANING, set), 1, at)
                        .ifPresent(reasons::add);
            }
        }
        return held(set, reasons, at);
    }

    /** @param coming washes that are not on record yet */
    private static Optional<String> tooOften(Place place, List<Told<Cleaning>> cleanings, int coming, Instant at) {
        Integer most = place.care() == null ? null : place.care().cycles();
        if (most == null) {
            return Optional.empty();
        }
        long cycles = coming
                + cleanings.stream()
                        .filter(told -> told.fact().method() != Cleaning.Method.WIPE)
                        .filter(told -> told.from().isAfter(place.since()))
                        .filter(told -> !told.from().isAfter(at))
                        .count();
        return cycles > most ? Optional.of(place.name() + ": " + cycles + " > " + most) : Optional.empty();
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
        return List.of(Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.QUARANTINE, Shape.cut(reason)), set, at));
    }

    static List<PartCare.Bath> baths(Set<WashMethod> methods) {
        return Arrays.stream(PartCare.Bath.values())
                .filter(bath -> methods.contains(WashMethod.valueOf(bath.name())))
                .toList();
    }
}
