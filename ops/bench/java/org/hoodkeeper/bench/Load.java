package org.hoodkeeper.bench;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;

/** Runs the same work many times and keeps how long each took. */
final class Load {

    /** Work number n. */
    @FunctionalInterface
    interface Work {
        void run(int n) throws Exception;
    }

    /** One worker's own way of working, for work that keeps a connection. */
    @FunctionalInterface
    interface Hand {
        Work of(int hand) throws Exception;
    }

    /** @param nanos each, in ascending order */
    record Times(long[] nanos, double seconds) {

        double millis(double share) {
            return nanos[(int) Math.min(nanos.length - 1, Math.floor(nanos.length * share))] / 1e6;
        }

        double perSecond() {
            return nanos.length / seconds;
        }
    }

    private Load() {}

    /** As fast as so many hands can, each after the other. */
    static Times closed(int hands, int times, Hand hand) throws Exception {
        AtomicInteger next = new AtomicInteger();
        return run(hands, work -> {
            List<Long> taken = new ArrayList<>();
            for (int n = next.getAndIncrement(); n < times; n = next.getAndIncrement()) {
                long begun = System.nanoTime();
                work.run(n);
                taken.add(System.nanoTime() - begun);
            }
            return taken;
        }, hand);
    }

    /** At a given rate, whether or not the answers keep up: time counts from when each was due. */
    static Times open(int hands, int times, double perSecond, Hand hand) throws Exception {
        AtomicInteger next = new AtomicInteger();
        long begun = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(50);
        return run(hands, work -> {
            List<Long> taken = new ArrayList<>();
            for (int n = next.getAndIncrement(); n < times; n = next.getAndIncrement()) {
                long due = begun + (long) (n * 1e9 / perSecond);
                for (long wait = due - System.nanoTime(); wait > 0; wait = due - System.nanoTime()) {
                    LockSupport.parkNanos(wait);
                }
                work.run(n);
                taken.add(System.nanoTime() - due);
            }
            return taken;
        }, hand);
    }

    @FunctionalInterface
    private interface Shift {
        List<Long> work(Work work) throws Exception;
    }

    private static Times run(int hands, Shift shift, Hand hand) throws Exception {
        ExecutorService pool = Executors.newFixedThreadPool(hands);
        try {
            List<Work> works = new ArrayList<>();
            for (int i = 0; i < hands; i++) {
                works.add(hand.of(i));
            }
            long begun = System.nanoTime();
            List<Callable<List<Long>>> shifts = new ArrayList<>();
            works.forEach(work -> shifts.add(() -> shift.work(work)));
            List<Long> all = new ArrayList<>();
            for (Future<List<Long>> done : pool.invokeAll(shifts)) {
                all.addAll(done.get());
            }
            double seconds = (System.nanoTime() - begun) / 1e9;
            long[] nanos = all.stream().mapToLong(Long::longValue).toArray();
            Arrays.sort(nanos);
            return new Times(nanos, seconds);
        } finally {
            pool.shutdownNow();
        }
    }
}
