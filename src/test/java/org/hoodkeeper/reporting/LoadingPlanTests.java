package org.hoodkeeper.reporting;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * How the database goes about the loading statements. What was told by a moment must never be a bound of an index: with five
 * million records a question then read 65 000 pages instead of 470, and a look at 500 people took 70 s instead of 0.3.
 */
@RecordingPage
class LoadingPlanTests {

    @Autowired
    TestSite sites;

    @Autowired
    JdbcTemplate jdbc;

    @Autowired
    TransactionTemplate transaction;

    static Stream<Reading.Statement> statements() {
        return Stream.of(Deciding.PART, Deciding.SHARED, Deciding.MORE, Deciding.AT_ONCE);
    }

    @ParameterizedTest
    @MethodSource("statements")
    void whatWasToldByThenBoundsNoIndexOfTheLedger(Reading.Statement statement) {
        TestSite.Laid laid = sites.lay("uk");
        for (String sql : List.of(statement.ahead(), statement.past())) {
            List<String> plan = laid.in(() -> transaction.execute(status -> {
                jdbc.execute("set local enable_seqscan = off");
                jdbc.execute("set local enable_bitmapscan = off");
                return jdbc.queryForList("explain " + sql, String.class, arguments(laid, statement));
            }));
            List<String> bounds = plan.stream()
                    .filter(line -> line.contains("Index Cond:") && line.contains("true_from"))
                    .toList();
            assertThat(bounds).isNotEmpty().noneMatch(line -> line.contains("recorded_at"));
        }
    }

    private static Object[] arguments(TestSite.Laid laid, Reading.Statement statement) {
        Timestamp now = Timestamp.from(Instant.parse("2026-02-03T09:00:00Z"));
        List<Object> arguments = new ArrayList<>(List.of(laid.site().id().value(), now, now, now));
        statement.ids().forEach(name -> arguments.add(new UUID[] {laid.worker().value()}));
        return arguments.toArray();
    }
}
