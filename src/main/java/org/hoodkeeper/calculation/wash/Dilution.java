package org.hoodkeeper.calculation.wash;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.hoodkeeper.kernel.Refused;

/**
 * How much of a product makes a solution of a wanted strength: C₁·V₁ = C₂·V₂, both strengths on the same basis. A dose is
 * rounded up, for a solution that is too weak disinfects nothing.
 *
 * @param product of the product, mL, rounded up to 0.01
 * @param water of water to fill up with, mL; what volume is lost by mixing is not counted
 */
public record Dilution(BigDecimal product, BigDecimal water) {

    private static final MathContext INSIDE = MathContext.DECIMAL128;

    /** Molar mass of chlorine Cl₂ over that of sodium hypochlorite, 70.906 ÷ 74.442: 1 g of it gives that much available chlorine. */
    private static final BigDecimal CHLORINE_OF_HYPOCHLORITE =
            new BigDecimal("70.906").divide(new BigDecimal("74.442"), INSIDE);

    /**
     * Fills up to a volume.
     *
     * @param stock strength of the product
     * @param wanted strength of the solution, same basis
     * @param millilitres volume of the solution, above 0
     * @throws Refused {@code calculation.strength.notPositive}, {@code calculation.dilution.weaker} when the product is weaker
     *     than what is wanted, {@code calculation.volume.notPositive}
     */
    public static Dilution fillUp(BigDecimal stock, BigDecimal wanted, BigDecimal millilitres) {
        requirePositive(stock, "calculation.strength.notPositive");
        requirePositive(wanted, "calculation.strength.notPositive");
        requirePositive(millilitres, "calculation.volume.notPositive");
        if (stock.compareTo(wanted) < 0) {
            throw new Refused("calculation.dilution.weaker", stock, wanted);
        }
        BigDecimal exact = wanted.multiply(millilitres).divide(stock, INSIDE);
        BigDecimal dose = exact.round(new MathContext(20))
                .setScale(2, RoundingMode.CEILING)
                .min(millilitres);
        return new Dilution(dose, millilitres.subtract(dose));
    }

    /**
     * Strength of a mixture of a product with water.
     *
     * @param stock strength of the product
     * @param product mL of it, 0 or more
     * @param water mL, 0 or more; not both 0
     */
    public static BigDecimal strength(BigDecimal stock, BigDecimal product, BigDecimal water) {
        BigDecimal all = product.add(water);
        requirePositive(all, "calculation.volume.notPositive");
        return stock.multiply(product).divide(all, INSIDE);
    }

    /**
     * Fills up by weighing, for liquids that shrink when mixed, such as alcohol and water: what is missing in mass is water.
     *
     * @param stock strength by volume of the product, and {@code stockDensity} its density
     * @param wanted strength by volume of the solution, and {@code wantedDensity} its density, same unit
     * @param waterDensity density of water at the same temperature
     * @return water in mL; more than the rest of the volume by what the mixture shrinks
     */
    public static Dilution byMass(
            BigDecimal stock,
            BigDecimal stockDensity,
            BigDecimal wanted,
            BigDecimal wantedDensity,
            BigDecimal waterDensity,
            BigDecimal millilitres) {
        Dilution byVolume = fillUp(stock, wanted, millilitres);
        requirePositive(waterDensity, "calculation.density.notPositive");
        BigDecimal exact = wanted.multiply(millilitres).divide(stock, INSIDE);
        BigDecimal missing = wantedDensity.multiply(millilitres).subtract(stockDensity.multiply(exact));
        return new Dilution(
                byVolume.product(), missing.divide(waterDensity, INSIDE).setScale(2, RoundingMode.HALF_EVEN));
    }

    /**
     * Available chlorine of a bleach by its label, mg/L.
     *
     * @param percent grams of sodium hypochlorite in 100 mL, above 0
     */
    public static BigDecimal availableChlorine(BigDecimal percent) {
        requirePositive(percent, "calculation.strength.notPositive");
        return percent.movePointRight(4)
                .multiply(CHLORINE_OF_HYPOCHLORITE, INSIDE)
                .setScale(0, RoundingMode.HALF_EVEN);
    }

    /**
     * What is left of a strength on the shelf, losing a fixed share each day: first-order decay, common practice for bleach. The
     * half-life is the product's, from its maker or from test strips.
     *
     * @param halfLifeDays above 0
     * @param days since it was made, 0 or more
     */
    public static BigDecimal onTheShelf(BigDecimal strength, double halfLifeDays, double days) {
        if (halfLifeDays <= 0 || days < 0) {
            throw new Refused("calculation.shelf.range", halfLifeDays, days);
        }
        return strength.multiply(BigDecimal.valueOf(Math.pow(0.5, days / halfLifeDays)), INSIDE);
    }

    private static void requirePositive(BigDecimal value, String code) {
        if (value.signum() <= 0) {
            throw new Refused(code, value);
        }
    }
}
