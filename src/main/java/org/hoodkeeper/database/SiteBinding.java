package org.hoodkeeper.database;

import java.util.function.Supplier;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.transaction.support.TransactionSynchronizationManager;

/**
 * The site that the current thread works for. Each transaction begun while a site is bound sees rows of that site only,
 * enforced by the database; a transaction begun with none bound sees no row of any site. Not inherited by other threads.
 */
public final class SiteBinding {

    private static final ThreadLocal<@Nullable SiteId> CURRENT = new ThreadLocal<>();

    private SiteBinding() {}

    public static <T> T in(SiteId site, Supplier<T> work) {
        try (Bound ignored = bind(site)) {
            return work.get();
        }
    }

    public static void run(SiteId site, Runnable work) {
        try (Bound ignored = bind(site)) {
            work.run();
        }
    }

    /**
     * Binds until closed, for code that cannot be wrapped.
     *
     * @throws IllegalStateException inside an open transaction that works for another site or for none: what that
     *     transaction may see was decided when it began
     */
    public static Bound bind(SiteId site) {
        SiteId before = CURRENT.get();
        if (TransactionSynchronizationManager.isActualTransactionActive() && !site.equals(before)) {
            throw new IllegalStateException("an open transaction works for " + (before == null ? "no site" : before)
                    + " and cannot turn to site " + site);
        }
        CURRENT.set(site);
        return () -> restore(before);
    }

    public static @Nullable SiteId current() {
        return CURRENT.get();
    }

    private static void restore(@Nullable SiteId before) {
        if (before == null) {
            CURRENT.remove();
        } else {
            CURRENT.set(before);
        }
    }

    /** Closing it restores what was bound before. */
    @FunctionalInterface
    public interface Bound extends AutoCloseable {

        @Override
        void close();
    }
}
