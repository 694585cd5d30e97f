package org.hoodkeeper.bench;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.LinkedHashMap;
import java.util.Map;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.kernel.SiteId;

/** Today's board to its last byte, against one SQL that reads a table of the same lines for the same counts and page. */
final class BoardGoals {

    private final BenchDatabase database;
    private final Guest officer;
    private final String code;
    private final SiteId site;

    BoardGoals(BenchDatabase database, Guest officer, String code, SiteId site) {
        this.database = database;
        this.officer = officer;
        this.code = code;
        this.site = site;
    }

    /** As many looks as the compiler needs to be done with the page. */
    private static final int WARM = 300;

    private static final String ONE = """
            with fitting as materialized (
                select * from bench_board b where b.site_id = ? and (? = '' or b.reason = ?) and (? = '' or b.verdict = ?))
            select (select json_object_agg(v, n) from (select verdict v, count(*) n from bench_board where site_id = ? group by 1) x),
                   (select json_object_agg(v, n) from (select task v, count(*) n from bench_board where site_id = ? group by 1) x),
                   (select json_object_agg(v, n) from (select coalesce(reason, '-') v, count(*) n from bench_board where site_id = ? group by 1) x),
                   (select count(*) from fitting),
                   (select json_agg(f) from (select * from fitting order by rank desc, number, task limit 50) f)""";

    void run() throws Exception {
        lines();
        long begun = System.nanoTime();
        page("");
        Goal.below("board, first look after a start", "ms", new double[] {(System.nanoTime() - begun) / 1e6}, 60_000);
        Map<String, String[]> filters = new LinkedHashMap<>();
        filters.put("no filter", new String[] {"", "", ""});
        filters.put("first reason CLEAN", new String[] {"?reason=CLEAN", "CLEAN", ""});
        filters.put("rarest, SYMPTOM_REVIEW", new String[] {"?reason=SYMPTOM_REVIEW", "SYMPTOM_REVIEW", ""});
        filters.put("commonest, NOT_CLEARED", new String[] {"?verdict=NOT_CLEARED", "", "NOT_CLEARED"});
        try (Connection connection = database.app();
                PreparedStatement one = connection.prepareStatement(ONE)) {
            connection.setAutoCommit(false);
            for (int i = 0; i < WARM; i++) {
                page("");
            }
            for (Map.Entry<String, String[]> filter : filters.entrySet()) {
                double[] page = new double[QuestionGoals.ROUNDS];
                double[] sql = new double[QuestionGoals.ROUNDS];
                String[] how = filter.getValue();
                for (int round = 0; round < page.length; round++) {
                    page[round] = Load.closed(1, 10, hand -> n -> page(how[0])).millis(0.5);
                    sql[round] = Load.closed(1, 10, hand -> n -> sql(one, how[1], how[2])).millis(0.5);
                }
                Goal.below("board, " + filter.getKey(), "ms", page, 150);
                Goal.atMost("board, " + filter.getKey() + ", against one SQL", "ms", page, sql, 1.5);
            }
        }
    }

    void page(String query) throws Exception {
        int status = officer.get("/sites/" + code + "/board" + query, "text/html").statusCode();
        if (status != 200) {
            throw new IllegalStateException("the board answered " + status);
        }
    }

    private void sql(PreparedStatement one, String reason, String verdict) throws Exception {
        one.setObject(1, site.value());
        one.setString(2, reason);
        one.setString(3, reason);
        one.setString(4, verdict);
        one.setString(5, verdict);
        for (int i = 6; i <= 8; i++) {
            one.setObject(i, site.value());
        }
        try (ResultSet row = one.executeQuery()) {
            row.next();
            for (int i = 1; i <= 5; i++) {
                row.getString(i);
            }
        }
        one.getConnection().commit();
    }

    /** As many lines as the board has, with the reasons in about the same shares. */
    private void lines() throws Exception {
        try (Connection connection = database.superuser();
                Statement statement = connection.createStatement()) {
            statement.execute("drop table if exists bench_board");
            statement.execute("""
                    create table bench_board as
                    select w.site_id, w.number, w.name, w.employer, t.code as task, 'S-' || substr(w.number, 3) as label,
                           'H40' as model, x.verdict, x.reason,
                           case x.verdict when 'NOT_CLEARED' then 2 when 'CLEARED' then 0 else 1 end as rank
                    from worker w
                    cross join lateral (select hashtext(w.number) & 127 as h) h
                    cross join lateral (select t.code from task t where t.site_id = w.site_id
                                        order by hashtext(w.number || t.code) limit 1 + (h.h % 4 = 1)::int) t
                    cross join lateral (select case when h.h < 64 then 'NOT_CLEARED' when h.h < 70 then 'CLEARED_WITH_CONDITIONS'
                                               else 'CLEARED' end as verdict,
                                        case when h.h < 1 then 'SYMPTOM_REVIEW' when h.h < 16 then 'CLEAN' when h.h < 32 then 'TRAINING'
                                             when h.h < 64 then 'EXAMINATION' when h.h < 70 then 'MEDICAL' end as reason) x""");
            statement.execute("create index on bench_board (site_id, reason, verdict)");
            statement.execute("grant select on bench_board to hoodkeeper_app");
            statement.execute("analyze bench_board");
        }
    }
}
