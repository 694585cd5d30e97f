package org.hoodkeeper.assessment;

import java.time.Duration;
import java.time.Instant;
import java.util.Objects;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.jspecify.annotations.Nullable;

/**
 * The wash that a set lies in: it was stripped, and its batch is neither dry nor broken off. What was true of it before it was
 * taken apart no longer is, whatever the records before say: nobody wears it. 29 CFR 1910.134, appendix B-2, names the steps.
 *
 * @param stripped the step that began it for this set
 * @param last the newest step of its batch
 * @param left whether the basket was left: it counts as under way no longer, and what is in it is washed again
 */
public record OpenWash(Told<WashStep> stripped, Told<WashStep> last, boolean left) {

    /** A basket left longer than that is no longer under way. Common practice, no source. */
    public static final Duration LONGEST = Duration.ofDays(7);

    /** The wash that the set lies in at that instant; none where it lies in none. */
    public static @Nullable OpenWash of(SetFile set, Instant at) {
        return of(new Looking(at, Instant.MAX), set);
    }

    static @Nullable OpenWash of(Looking looking, SetFile set) {
        Told<WashStep> stripped = stripped(looking, set);
        if (stripped == null) {
            return null;
        }
        Told<WashStep> last = stripped;
        for (Told<WashStep> told : looking.begun(set.washes())) {
            if (Objects.equals(told.scope(), stripped.scope())) {
                if (told.fact().step().isEnd()) {
                    return null;
                }
                last = Judging.isAfter(told, last) ? told : last;
            }
        }
        Instant end = stripped.from().plus(LONGEST);
        looking.watch(end);
        boolean left = looking.isOver(end);
        return left && isWashedSince(looking, set, stripped) ? null : new OpenWash(stripped, last, left);
    }

    /** When the set was last taken apart for a wash, whatever became of it. */
    static @Nullable Told<WashStep> stripped(Looking looking, SetFile set) {
        return looking.latest(set.washes(), told -> set.id().value().equals(told.item()));
    }

    private static boolean isWashedSince(Looking looking, SetFile set, Told<WashStep> stripped) {
        Told<Cleaning> full =
                looking.latest(set.cleanings(), told -> told.fact().method() != Cleaning.Method.WIPE);
        return full != null && Judging.isAfter(full, stripped);
    }
}
