package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the maker says of a model, and its class in each rule set. Never a protection factor: that comes from rule set, class
 * and date.
 *
 * @param type the interface type
 * @param classes class by rule set's code, for instance {@code uk -> TH2}
 * @param skinContact the edge must lie on skin, although the interface may be loose-fitting
 * @param sizes the sizes that exist
 * @param sealRevision the revision of the seal now delivered
 * @param minimumFlow the maker's minimum, L/min; none for a device without flow
 * @param flowAt the condition at which the minimum holds
 * @param batteryMinutes usable running time of a charged battery, minutes
 * @param filters what its filter stops
 * @param products disinfectants that every part allows
 * @param maxWashCelsius hottest wash that every part allows
 * @param slots where parts sit, and which part codes are approved there
 */
public record ModelData(
        String name,
        InterfaceType type,
        Map<String, String> classes,
        boolean skinContact,
        Set<String> sizes,
        String sealRevision,
        @Nullable BigDecimal minimumFlow,
        FlowAt flowAt,
        @Nullable Integer batteryMinutes,
        Set<FilterKind> filters,
        List<Product> products,
        @Nullable BigDecimal maxWashCelsius,
        List<Slot> slots)
        implements Fact {

    /** Whether the minimum flow is meant in the air as it is, or at the instrument's reference condition. */
    public enum FlowAt {
        LOCAL,
        REFERENCE
    }

    /**
     * A disinfectant that the maker allows.
     *
     * @param strength least strength, in {@code basis}
     * @param wetSeconds least wet contact time, seconds
     */
    public record Product(String code, BigDecimal strength, String basis, int wetSeconds) {}

    /**
     * A place in the set where a part sits.
     *
     * @param name for instance {@code visor}
     * @param parts approved part codes
     * @param lifeMonths longest life from manufacture, months; none where the maker sets none
     * @param care what the part there bears in the wash; none where it bears what the model bears
     */
    public record Slot(
            String name,
            Set<String> parts,
            @Nullable Integer lifeMonths,
            @Nullable PartCare care) {

        public Slot {
            parts = Ordered.copy(parts);
        }

        /** A place whose part bears in the wash what the model bears. */
        public Slot(String name, Set<String> parts, @Nullable Integer lifeMonths) {
            this(name, parts, lifeMonths, null);
        }
    }

    public ModelData {
        classes = Ordered.copy(classes);
        sizes = Ordered.copy(sizes);
        filters = Ordered.copy(filters);
        products = products == null ? List.of() : List.copyOf(products);
        slots = slots == null ? List.of() : List.copyOf(slots);
    }

    /**
     * The products that disinfect the set whole: every part that is washed bears them for as long as they need. A place that names
     * none bears all of them; it can narrow what the maker says of the model, and never widen it.
     */
    public List<Product> productsForEveryPart() {
        return products.stream().filter(this::isForEveryPart).toList();
    }

    private boolean isForEveryPart(Product product) {
        for (Slot slot : slots) {
            PartCare care = slot.care();
            if (care != null && !care.neverWashed() && !care.bears(product.code(), product.wetSeconds())) {
                return false;
            }
        }
        return true;
    }

    /** Whether a product listed for it, and borne by every part, was used at least that strong and that long. */
    boolean isDisinfectedBy(
            @Nullable String product, BigDecimal strength, @Nullable String strengthBasis, int wetSeconds) {
        for (Product listed : products) {
            if (listed.code().equals(product)
                    && listed.basis().equals(strengthBasis)
                    && strength.compareTo(listed.strength()) >= 0
                    && wetSeconds >= listed.wetSeconds()
                    && isForEveryPart(listed)) {
                return true;
            }
        }
        return false;
    }

    /** A seal on skin matters: tight-fitting, or an edge that must lie on skin. */
    public boolean sealsOnSkin() {
        return type.isTightFitting() || skinContact;
    }
}
