package org.hoodkeeper.facts;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A set was cleaned. Only a disinfection with product, strength and wet time covers a change of wearer; a wipe never does.
 *
 * @param method how far it went
 * @param product the disinfectant's code as the model lists it
 * @param strength strength in the unit of {@code strengthBasis}
 * @param strengthBasis for instance {@code ppm available chlorine} or {@code % v/v}
 * @param wetSeconds time the surface was wet, seconds
 * @param celsius wash temperature
 */
public record Cleaning(
        Method method,
        @Nullable String product,
        @Nullable BigDecimal strength,
        @Nullable String strengthBasis,
        @Nullable Integer wetSeconds,
        @Nullable BigDecimal celsius)
        implements Fact {

    public enum Method {
        WIPE,
        WASH,
        WASH_AND_DISINFECT
    }

    /**
     * Product, strength on the same basis and wet time at least as the model lists them, and every part bears that product. A wipe
     * or a wash alone never does.
     */
    public boolean disinfects(ModelData model) {
        return method == Method.WASH_AND_DISINFECT
                && strength != null
                && wetSeconds != null
                && model.isDisinfectedBy(product, strength, strengthBasis, wetSeconds);
    }
}
