package org.hoodkeeper.oversight;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.calculation.Proportion;
import org.hoodkeeper.facts.Finding;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.store.LookBacks;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * How the programme did in a period: each figure with what it is made of, as known now. Where nothing is on record there is no
 * figure, and no zero in its place. What to count is common practice, no source.
 */
@Service
@Transactional
public class ProgrammeFigures {

    private static final BigDecimal HUNDRED = new BigDecimal("100");
    private static final BigDecimal THOUSAND = new BigDecimal("1000");
    private static final double HOUR = 3_600;

    /** What stands, of one kind, that began in the period; the record and the period's two ends are the arguments. */
    private static final String BEGUN = """
            r.site_id = ? and r.kind = ? and r.true_from >= ? and r.true_from < ? and not r.withdrawn
            and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)""";

    private final JudgedWears wears;
    private final Findings findings;
    private final LookBacks lookBacks;
    private final SiteRegister sites;
    private final KnowledgeClock clock;
    private final JdbcTemplate jdbc;

    ProgrammeFigures(
            JudgedWears wears,
            Findings findings,
            LookBacks lookBacks,
            SiteRegister sites,
            KnowledgeClock clock,
            JdbcTemplate jdbc) {
        this.wears = wears;
        this.findings = findings;
        this.lookBacks = lookBacks;
        this.sites = sites;
        this.clock = clock;
        this.jdbc = jdbc;
    }

    /** What is counted. */
    public enum Name {
        /** Hours worn with an answer other than no, as known now ÷ hours worn with both ends on record; per cent. */
        WEAR_COVERED,
        /** Days past their due day until closed, or until today ÷ findings with a due day; days. */
        DAYS_OVERDUE,
        /** First checks of a set in a day by one wearer that passed ÷ all such first checks; per cent. */
        FIRST_PASS,
        /** Defects found ÷ wears begun, by part; per 1 000 wears. */
        DEFECTS,
        /** Looks on the round at which it was worn right ÷ all looks; per cent, and a sample. */
        WORN_RIGHT,
        /** Hours from a defect of a set in somebody's hands to the next set issued to them, or to its mending ÷ such defects. */
        TO_REPLACEMENT,
        /** Look-backs with a wear inside that are closed ÷ all such look-backs, of failures of the period; per cent. */
        LOOK_BACKS
    }

    /**
     * @param of the part; none where the figure is of the whole
     * @param value none where the denominator is zero: no data
     * @param interval exact, 95 %; only where the figure is of a sample
     * @param leftOut how many could not be counted: without an end on record, not judged yet, or still open
     */
    public record Indicator(
            Name name,
            @Nullable String of,
            BigDecimal numerator,
            BigDecimal denominator,
            @Nullable BigDecimal value,
            @Nullable Proportion interval,
            long leftOut) {}

    /** @param from first instant @param until not included @param judging at most so many wears are judged before it answers */
    public List<Indicator> of(SiteId site, Instant from, Instant until, int judging) {
        List<Indicator> all = new ArrayList<>();
        all.add(covered(site, from, until, judging));
        all.add(overdue(site, from, until));
        all.add(firstPass(site, from, until));
        all.addAll(defects(site, from, until));
        all.add(wornRight(site, from, until));
        all.add(toReplacement(site, from, until));
        all.add(lookBacks(site, from, until));
        return all;
    }

    private Indicator lookBacks(SiteId site, Instant from, Instant until) {
        List<LookBacks.Whole> opened = lookBacks.of(site, from, until).stream()
                .filter(one -> one.state() != LookBacks.State.NOBODY)
                .toList();
        int closed = (int) opened.stream().filter(one -> !one.isOpen()).count();
        return counted(Name.LOOK_BACKS, new int[] {closed, opened.size()}, null);
    }

    private Indicator covered(SiteId site, Instant from, Instant until, int judging) {
        long leftOut = wears.refresh(site, from, until, judging);
        double covered = 0;
        double worn = 0;
        for (JudgedWears.Judged judged : wears.of(site, from, until)) {
            Instant end = judged.worn().until();
            if (end == null) {
                leftOut++;
                continue;
            }
            double hours = Duration.between(judged.worn().from(), end).toSeconds() / HOUR;
            worn += hours;
            covered += judged.now() == Verdict.NOT_CLEARED ? 0 : hours;
        }
        return ratio(Name.WEAR_COVERED, null, tenths(covered), tenths(worn), HUNDRED, leftOut);
    }

    private Indicator overdue(SiteId site, Instant from, Instant until) {
        ZoneId zone = sites.get(site).zone();
        LocalDate today = Days.of(clock.now(), zone);
        long days = 0;
        long due = 0;
        long leftOut = 0;
        for (Findings.Found found : findings.of(site, from, until, 0).found()) {
            Finding given = found.assignment();
            LocalDate last = given == null ? null : given.dueOn();
            if (last == null) {
                leftOut++;
                continue;
            }
            LocalDate end = found.isClosed() ? Days.of(found.steps().get(0).at(), zone) : today;
            due++;
            days += Math.max(0, ChronoUnit.DAYS.between(last, end));
        }
        return ratio(
                Name.DAYS_OVERDUE, null, BigDecimal.valueOf(days), BigDecimal.valueOf(due), BigDecimal.ONE, leftOut);
    }

    private Indicator firstPass(SiteId site, Instant from, Instant until) {
        int[] counts = jdbc.queryForObject(
                """
                select count(*) filter (where passed), count(*) from (
                    select distinct on (c.subject, c.item, c.day) c.passed from (
                        select r.subject, r.item, (r.true_from at time zone ?)::date as day, r.true_from, r.recorded_at,
                               not exists (
                                   select 1 from jsonb_each_text((r.body ->> 'items')::jsonb) i where i.value = 'FAIL')
                               and coalesce(r.body ->> 'placement', 'PASS') <> 'FAIL' as passed
                        from ledger_record r where %s) c
                    order by c.subject, c.item, c.day, c.true_from, c.recorded_at) f""".formatted(BEGUN),
                (row, n) -> new int[] {row.getInt(1), row.getInt(2)},
                sites.get(site).zone().getId(),
                site.value(),
                Kind.PRE_USE_CHECK.number(),
                Timestamp.from(from),
                Timestamp.from(until));
        return counted(Name.FIRST_PASS, counts, null);
    }

    private List<Indicator> defects(SiteId site, Instant from, Instant until) {
        Long counted = jdbc.queryForObject(
                "select count(*) from ledger_record r where " + BEGUN + " and r.body ->> 'step' <> 'EXIT'",
                Long.class,
                site.value(),
                Kind.WEAR.number(),
                Timestamp.from(from),
                Timestamp.from(until));
        BigDecimal begun = BigDecimal.valueOf(counted == null ? 0 : counted);
        List<Indicator> parts = jdbc.query(
                "select coalesce(r.body ->> 'part', ''), count(*) from ledger_record r where " + BEGUN
                        + " and r.body ->> 'step' = 'FOUND' group by 1 order by 2 desc, 1",
                (row, n) -> ratio(Name.DEFECTS, row.getString(1), row.getBigDecimal(2), begun, THOUSAND, 0),
                site.value(),
                Kind.DEFECT.number(),
                Timestamp.from(from),
                Timestamp.from(until));
        return parts.isEmpty() ? List.of(ratio(Name.DEFECTS, null, BigDecimal.ZERO, begun, THOUSAND, 0)) : parts;
    }

    private Indicator wornRight(SiteId site, Instant from, Instant until) {
        int[] counts = jdbc.queryForObject(
                "select count(*) filter (where r.body ->> 'seen' = 'WORN_RIGHT'), count(*) from ledger_record r where "
                        + BEGUN + " and r.body ->> 'seen' in ('WORN_RIGHT', 'LIFTED_IN_AREA', 'NOT_WORN')",
                (row, n) -> new int[] {row.getInt(1), row.getInt(2)},
                site.value(),
                Kind.OBSERVATION.number(),
                Timestamp.from(from),
                Timestamp.from(until));
        return counted(Name.WORN_RIGHT, counts, counts[1] == 0 ? null : new Proportion(counts[0], counts[1]));
    }

    /** The record holds no alarm as such: a defect found on a set while somebody has it stands for it. */
    private Indicator toReplacement(SiteId site, Instant from, Instant until) {
        return jdbc.queryForObject(
                """
                with standing as not materialized (
                    select * from ledger_record s where s.site_id = ? and not s.withdrawn
                      and not exists (select 1 from ledger_record c where c.site_id = s.site_id and c.corrects = s.id)),
                found as (
                    select r.id, r.subject as set_id, r.true_from as at, (
                        select case when h.body ->> 'claim' = 'ISSUED' then h.item end from standing h
                        where h.kind = %1$d and h.subject = r.subject and h.true_from <= r.true_from
                        order by h.true_from desc, h.recorded_at desc limit 1) as holder
                    from ledger_record r where %3$s and r.body ->> 'step' = 'FOUND'),
                ended as (
                    select f.at, least(
                        (select min(i.true_from) from standing i where i.kind = %1$d and i.item = f.holder
                           and i.subject <> f.set_id and i.body ->> 'claim' = 'ISSUED' and i.true_from >= f.at),
                        (select min(m.true_from) from standing m where m.kind = %2$d and m.item = f.id
                           and m.body ->> 'step' = 'MENDED' and m.true_from >= f.at)) as until
                    from found f where f.holder is not null)
                select coalesce(sum(extract(epoch from until - at)), 0) / 3600, count(until), count(*) - count(until) from ended""".formatted(Kind.CUSTODY.number(), Kind.DEFECT.number(), BEGUN),
                (row, n) -> ratio(
                        Name.TO_REPLACEMENT,
                        null,
                        row.getBigDecimal(1).setScale(1, RoundingMode.HALF_UP),
                        row.getBigDecimal(2),
                        BigDecimal.ONE,
                        row.getLong(3)),
                site.value(),
                site.value(),
                Kind.DEFECT.number(),
                Timestamp.from(from),
                Timestamp.from(until));
    }

    private static Indicator counted(Name name, int[] counts, @Nullable Proportion interval) {
        Indicator plain = ratio(name, null, BigDecimal.valueOf(counts[0]), BigDecimal.valueOf(counts[1]), HUNDRED, 0);
        return new Indicator(name, null, plain.numerator(), plain.denominator(), plain.value(), interval, 0);
    }

    private static Indicator ratio(
            Name name,
            @Nullable String of,
            BigDecimal numerator,
            BigDecimal denominator,
            BigDecimal times,
            long leftOut) {
        BigDecimal value = denominator.signum() == 0
                ? null
                : numerator.multiply(times).divide(denominator, 1, RoundingMode.HALF_UP);
        return new Indicator(name, of, numerator, denominator, value, null, leftOut);
    }

    private static BigDecimal tenths(double hours) {
        return BigDecimal.valueOf(hours).setScale(1, RoundingMode.HALF_UP);
    }
}
