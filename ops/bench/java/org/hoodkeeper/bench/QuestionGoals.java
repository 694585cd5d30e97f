package org.hoodkeeper.bench;

import java.sql.Connection;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.access.BenchPassword;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.reporting.SameStatements;
import org.hoodkeeper.rules.RequirementKind;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The question over HTTP against the very same statements without the service. */
final class QuestionGoals {

    static final int ROUNDS = 5;
    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final Pattern BUFFERS = Pattern.compile("Buffers: shared hit=(\\d+)(?: read=(\\d+))?");

    private final BenchDatabase database;
    private final Service service;
    private final int times;

    QuestionGoals(BenchDatabase database, Service service, int times) {
        this.database = database;
        this.service = service;
        this.times = times;
    }

    /** One site as it is asked about. */
    record Asked(String code, SiteId site, List<Pair> pairs, Instant from) {}

    void run(Asked asked) throws Exception {
        List<Pair> some = some(asked.pairs());
        Asks asks = new Asks(service.url(), asked.code(), asked.from());
        Map<Pair, SameStatements.Refusal> refused = new HashMap<>();
        for (Pair pair : some) {
            JsonNode answer = JSON.readTree(asks.ask(pair));
            if (answer.get("verdict").asString().equals("NOT_CLEARED")) {
                refused.put(pair, refusal(answer));
            }
        }
        for (int clients : new int[] {1, 8}) {
            Load.closed(clients, times, hand -> n -> asks.ask(some.get(n % some.size())));
            double[] p50 = new double[ROUNDS];
            double[] bare50 = new double[ROUNDS];
            double[] p99 = new double[ROUNDS];
            double[] bare99 = new double[ROUNDS];
            for (int round = 0; round < ROUNDS; round++) {
                Load.Times bare = Load.closed(clients, times, hand -> same(asked, some, refused));
                Load.Times full = Load.closed(clients, times, hand -> n -> asks.ask(some.get(n % some.size())));
                Load.Times open = Load.open(
                        4 * clients, times, full.perSecond() / 2, hand -> n -> asks.ask(some.get(n % some.size())));
                p50[round] = full.millis(0.5);
                bare50[round] = bare.millis(0.5);
                p99[round] = open.millis(0.99);
                bare99[round] = bare.millis(0.5);
            }
            Goal.atMost("question, " + clients + " client" + (clients == 1 ? "" : "s") + ", p50", "ms", p50, bare50, 3);
            Goal.atMost(
                    "question, " + clients + " client" + (clients == 1 ? "" : "s") + ", p99 at half of capacity",
                    "ms",
                    p99,
                    bare99,
                    8);
        }
    }

    /** The same people with ten times the history, and one subject with ten thousand records. */
    void growth(Asked small, Asked large) throws Exception {
        double[] usual = new double[ROUNDS];
        double[] long_ = new double[ROUNDS];
        double[] heavy = new double[ROUNDS];
        Asks one = new Asks(service.url(), small.code(), small.from());
        Asks ten = new Asks(service.url(), large.code(), large.from());
        List<Pair> some = some(small.pairs());
        List<Pair> others = some(large.pairs());
        for (int round = 0; round < ROUNDS; round++) {
            usual[round] = Load.closed(1, times, hand -> n -> one.ask(some.get(n % some.size()))).millis(0.5);
            long_[round] = Load.closed(1, times, hand -> n -> ten.ask(others.get(n % others.size()))).millis(0.5);
            heavy[round] = Load.closed(1, times / 2, hand -> n -> ten.ask(large.pairs().get(0))).millis(0.5);
        }
        Goal.atMost("question, history × 10, p50", "ms", long_, usual, 1.15);
        Goal.atMost("question, subject with 10 000 records, p50", "ms", heavy, usual, 1.15);
        double few = buffers(small, some);
        Goal.atMost("question, history × 10, buffers", "", new double[] {buffers(large, others)}, new double[] {few}, 1.15);
        Goal.atMost(
                "question, subject with 10 000 records, buffers",
                "",
                new double[] {buffers(large, large.pairs().subList(0, 1))},
                new double[] {few},
                1.15);
    }

    /** Of the loading statement, the mean over some questions. */
    double buffers(Asked asked, List<Pair> pairs) throws Exception {
        try (Connection connection = database.app()) {
            SameStatements same =
                    new SameStatements(connection, asked.site(), BenchPassword.hash(asked.code()), asked.from());
            double all = 0;
            int many = Math.min(30, pairs.size());
            for (Pair pair : pairs.subList(0, many)) {
                Matcher found = BUFFERS.matcher(plan(same, pair));
                found.find();
                all += Double.parseDouble(found.group(1))
                        + (found.group(2) == null ? 0 : Double.parseDouble(found.group(2)));
            }
            return all / many;
        }
    }

    void buffers(Asked asked) throws Exception {
        Goal.below("question, buffers", "", new double[] {buffers(asked, some(asked.pairs()))}, 120);
    }

    static String plan(SameStatements same, Pair pair) throws Exception {
        return same.plan(
                Generator.number(pair.index), Generator.taskCode(pair.taskNumber()), Generator.label(pair.index));
    }

    private Load.Work same(Asked asked, List<Pair> some, Map<Pair, SameStatements.Refusal> refused) throws Exception {
        Connection connection = database.app();
        SameStatements same =
                new SameStatements(connection, asked.site(), BenchPassword.hash(asked.code()), asked.from());
        return n -> {
            Pair pair = some.get(n % some.size());
            same.ask(
                    Generator.number(pair.index),
                    Generator.taskCode(pair.taskNumber()),
                    Generator.label(pair.index),
                    refused.get(pair));
        };
    }

    private static SameStatements.Refusal refusal(JsonNode answer) {
        List<Reason> reasons = new ArrayList<>();
        for (JsonNode line : answer.get("reasons")) {
            reasons.add(new Reason(
                    RequirementKind.valueOf(line.get("requirement").asString()),
                    Result.valueOf(line.get("result").asString()),
                    Why.valueOf(line.get("why").asString()),
                    List.of(),
                    null,
                    null,
                    null));
        }
        Set<String> found = new HashSet<>();
        for (JsonNode way : answer.get("alternatives")) {
            if (way.path("task").isMissingNode() || way.get("task").isNull()) {
                found.add(way.get("set").asString());
            }
        }
        return new SameStatements.Refusal(reasons, found);
    }

    private static List<Pair> some(List<Pair> all) {
        SplittableRandom random = new SplittableRandom(3);
        List<Pair> some = new ArrayList<>();
        for (int i = 0; i < Math.min(1_000, all.size()); i++) {
            some.add(all.get(random.nextInt(all.size())));
        }
        return some;
    }
}
