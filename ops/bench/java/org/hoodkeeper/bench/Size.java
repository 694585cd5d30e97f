package org.hoodkeeper.bench;

/**
 * How large a site to make.
 *
 * @param code the site's code
 * @param workers people, each with a set of their own
 * @param records about how many records over five years; at least about 25 a worker
 * @param heavy how many records more the first worker and set get
 * @param seed the same seed and sizes make the same site, but for the day it ends on
 */
record Size(String code, int workers, long records, int heavy, long seed) {

    /** Five years. */
    static final int WEEKS = 260;

    private static final int OTHERS = 33;
    private static final double PER_WEEK = 8.9;

    /** Weeks of wear within the five years that make up the records, and whole campaigns of six weeks. */
    int activeWeeks() {
        double each = (double) records / workers - OTHERS;
        return (int) Math.max(6, Math.min(WEEKS - 2, Math.round(each / PER_WEEK)));
    }
}
