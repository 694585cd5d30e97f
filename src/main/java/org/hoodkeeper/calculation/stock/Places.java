package org.hoodkeeper.calculation.stock;

import org.hoodkeeper.kernel.Refused;

/**
 * Places at the wash, or on the test bench, that sets queue for: Erlang's two formulas for arrivals by chance. Traffic is
 * arrivals × time at a place, in erlang: the number of places that would be busy on average.
 */
public final class Places {

    private static final int MOST = 10_000;

    private Places() {}

    /** Share of arrivals that find all places busy and go away (Erlang B). @param places 0 or more */
    public static double lost(int places, double traffic) {
        require(places, traffic);
        double lost = 1;
        for (int i = 1; i <= places; i++) {
            lost = traffic * lost / (i + traffic * lost);
        }
        return lost;
    }

    /** Share of arrivals that must wait (Erlang C); 1 where the traffic fills all places. @param places 1 or more */
    public static double waiting(int places, double traffic) {
        require(places, traffic);
        if (traffic >= places) {
            return 1;
        }
        double lost = lost(places, traffic);
        return lost / (1 - traffic / places * (1 - lost));
    }

    /** The fewest places at which at most that share has to wait. @param most above 0 */
    public static int least(double traffic, double most) {
        if (!(most > 0)) {
            throw new Refused("calculation.level.range", most);
        }
        int places = 1;
        while (waiting(places, traffic) > most) {
            places++;
        }
        return places;
    }

    private static void require(int places, double traffic) {
        if (places < 0 || places > MOST || !(traffic >= 0 && traffic <= MOST)) {
            throw new Refused("calculation.places.range", places, traffic);
        }
    }
}
