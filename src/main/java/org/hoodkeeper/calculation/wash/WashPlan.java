package org.hoodkeeper.calculation.wash;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * The only proper recipe for a basket: lowest temperature, common products, common methods, the contact time that the product
 * needs, over all parts. Where the parts have no recipe in common, the strip plan: the load that keeps most parts together
 * first, what was pulled out of it after it. Common practice for reprocessing assemblies, no published source.
 *
 * @param loads one where the basket goes together; more where parts are pulled
 * @param without parts that bear no product and method at all: they are replaced or cleaned as their maker says, never disinfected
 */
public record WashPlan(List<WashLoad> loads, List<String> without) {

    public WashPlan {
        loads = List.copyOf(loads);
        without = List.copyOf(without);
    }

    /** Whether the whole basket goes in one load. */
    public boolean isWhole() {
        return loads.size() == 1 && without.isEmpty();
    }

    /** The parts to pull from the basket before the first load. */
    public List<String> pulled() {
        List<String> pulled = new ArrayList<>();
        loads.stream().skip(1).forEach(load -> pulled.addAll(load.parts()));
        pulled.addAll(without);
        return pulled;
    }

    /**
     * @param basket at least one part
     * @param products what the site has, best liked first
     * @throws Refused {@code calculation.basket.empty}
     */
    public static WashPlan of(List<WashedPart> basket, List<Disinfectant> products) {
        if (basket.isEmpty()) {
            throw new Refused("calculation.basket.empty");
        }
        List<WashedPart> left = new ArrayList<>(basket);
        List<WashLoad> loads = new ArrayList<>();
        while (!left.isEmpty()) {
            List<WashedPart> together = mostTogether(left, products);
            if (together.isEmpty()) {
                break;
            }
            loads.add(load(together, products));
            left.removeAll(together);
        }
        return new WashPlan(loads, left.stream().map(WashedPart::name).toList());
    }

    /** What a load of exactly these parts may be given; not possible where they have nothing in common. */
    public static WashLoad load(List<WashedPart> parts, List<Disinfectant> products) {
        Set<WashMethod> methods = EnumSet.allOf(WashMethod.class);
        parts.forEach(part -> methods.retainAll(part.methods()));
        return new WashLoad(
                parts.stream().map(WashedPart::name).toList(),
                hottest(parts),
                products.stream()
                        .filter(product -> parts.stream().allMatch(part -> part.bears(product)))
                        .toList(),
                methods);
    }

    private static @Nullable BigDecimal hottest(List<WashedPart> parts) {
        BigDecimal lowest = null;
        for (WashedPart part : parts) {
            BigDecimal one = part.hottest();
            if (one != null && (lowest == null || one.compareTo(lowest) < 0)) {
                lowest = one;
            }
        }
        return lowest;
    }

    private static List<WashedPart> mostTogether(List<WashedPart> parts, List<Disinfectant> products) {
        List<WashedPart> most = List.of();
        for (Disinfectant product : products) {
            for (WashMethod method : WashMethod.values()) {
                List<WashedPart> fitting = parts.stream()
                        .filter(part -> part.bears(product) && part.methods().contains(method))
                        .toList();
                if (fitting.size() > most.size()) {
                    most = fitting;
                }
            }
        }
        return most;
    }

    /** A limit of a part that a cycle went over: the part goes on hold. */
    public record Excess(String part, Limit limit) {

        public enum Limit {
            TEMPERATURE,
            PRODUCT,
            WET_TIME,
            METHOD
        }
    }

    /**
     * What a cycle as it was run did to the parts.
     *
     * @param celsius hottest water of the cycle; none where no water was used
     * @param product code of what was used; none where nothing was
     * @param wetSeconds how long it stayed on
     */
    public static List<Excess> excesses(
            List<WashedPart> parts,
            WashMethod method,
            @Nullable BigDecimal celsius,
            @Nullable String product,
            int wetSeconds) {
        List<Excess> excesses = new ArrayList<>();
        for (WashedPart part : parts) {
            if (celsius != null && part.hottest() != null && celsius.compareTo(part.hottest()) > 0) {
                excesses.add(new Excess(part.name(), Excess.Limit.TEMPERATURE));
            }
            if (!part.methods().contains(method)) {
                excesses.add(new Excess(part.name(), Excess.Limit.METHOD));
            }
            Integer longest = product == null
                    ? Integer.valueOf(WashedPart.NO_LIMIT)
                    : part.products().get(product);
            if (longest == null) {
                excesses.add(new Excess(part.name(), Excess.Limit.PRODUCT));
            } else if (wetSeconds > longest) {
                excesses.add(new Excess(part.name(), Excess.Limit.WET_TIME));
            }
        }
        excesses.sort(Comparator.comparing(Excess::part).thenComparing(Excess::limit));
        return excesses;
    }
}
