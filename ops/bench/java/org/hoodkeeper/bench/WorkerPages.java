package org.hoodkeeper.bench;

import java.util.ArrayList;
import java.util.List;

/** The worker's first page: people signed in, one after the other, each of whom must get their own name back. */
final class WorkerPages {

    /** What the public example application's owner page reached with 8 connections on two cores, requests a second. */
    private static final double PUBLIC_EXAMPLE = 354;

    private static final int PEOPLE = 40;
    private static final int REQUESTS = 800;

    private final Service service;
    private final String code;
    private final List<Pair> pairs;

    WorkerPages(Service service, String code, List<Pair> pairs) {
        this.service = service;
        this.code = code;
        this.pairs = pairs;
    }

    void run() throws Exception {
        List<Guest> guests = new ArrayList<>();
        for (Pair pair : pairs.subList(0, Math.min(PEOPLE, pairs.size()))) {
            guests.add(Guest.signIn(service.url(), Generator.login(code, pair.index)));
        }
        Load.closed(8, REQUESTS, hand -> n -> today(guests, n));
        double[] perSecond = new double[QuestionGoals.ROUNDS];
        for (int round = 0; round < perSecond.length; round++) {
            perSecond[round] = Load.closed(8, REQUESTS, hand -> n -> today(guests, n)).perSecond();
        }
        Goal.above("worker's page, 8 connections", "requests/s", perSecond, PUBLIC_EXAMPLE);
    }

    private void today(List<Guest> guests, int n) throws Exception {
        int who = n % guests.size();
        String body = guests.get(who).get("/sites/" + code + "/today", "text/html").body();
        if (!body.contains(Generator.label(who)) && !body.contains("Worker " + who)) {
            throw new IllegalStateException("worker " + who + " got another page: " + body);
        }
    }
}
