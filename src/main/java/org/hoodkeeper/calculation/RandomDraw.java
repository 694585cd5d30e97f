package org.hoodkeeper.calculation;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.hoodkeeper.kernel.Refused;

/**
 * A draw without putting back that anybody can repeat: the same list in the same order and the same seed give the same draw. The
 * numbers are those of {@link Random}, whose recurrence the Java platform fixes for good; the shuffle is Fisher and Yates's, from
 * the end.
 */
public final class RandomDraw {

    private RandomDraw() {}

    /**
     * @param from in an order that can be had again, for instance by number
     * @param count 1 to the length of the list; refused as {@code calculation.draw.count}
     */
    public static <T> List<T> of(List<T> from, int count, long seed) {
        if (count < 1 || count > from.size()) {
            throw new Refused("calculation.draw.count", count, from.size());
        }
        Random random = new Random(seed);
        List<T> shuffled = new ArrayList<>(from);
        for (int last = shuffled.size() - 1; last > 0; last--) {
            int other = random.nextInt(last + 1);
            T one = shuffled.get(last);
            shuffled.set(last, shuffled.get(other));
            shuffled.set(other, one);
        }
        return List.copyOf(shuffled.subList(0, count));
    }
}
