package org.hoodkeeper.store;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How many sets are ready at a time for those who are posted to a task then.
 *
 * @param from the time
 * @param sizes each model and size that is wanted or kept: what is short first, then by model and size
 * @param withoutSize names of those posted who have no set in hand: which model and size they want is not on record
 */
public record ReadyCount(Instant from, List<OfSize> sizes, List<String> withoutSize) {

    /**
     * One model and size.
     *
     * @param wanted sets in the hands of people who are posted then
     * @param inHand how many of those are ready for whoever has them
     * @param inStore how many lie in the store, ready for anybody
     * @param awaited what is not ready, soonest first; what nobody can foretell last
     */
    public record OfSize(String model, String size, int wanted, int inHand, int inStore, List<Awaited> awaited) {

        /** Of those wanted. */
        public int ready() {
            return Math.min(wanted, inHand + inStore);
        }

        public int shortBy() {
            return wanted - ready();
        }

        /** Ready or not, wherever they are; withdrawn ones left out. */
        public int kept() {
            return inHand + inStore + awaited.size();
        }
    }

    /**
     * A set that is not ready, and what would make it so.
     *
     * @param stage where it stands in its life
     * @param steps what has to be done, in order; what the wash under way does is left out
     * @param air whether the air supply that it hangs on is barred
     * @param ready the earliest time of being ready, at usual times; none where a step has no usual time
     */
    public record Awaited(
            String label,
            SetStage stage,
            List<SetStep> steps,
            boolean air,
            @Nullable Instant ready) {}

    /** Of known model and size. */
    public int wanted() {
        return sizes.stream().mapToInt(OfSize::wanted).sum();
    }

    public int ready() {
        return sizes.stream().mapToInt(OfSize::ready).sum();
    }

    public int shortBy() {
        return wanted() - ready();
    }
}
