package org.hoodkeeper.exchange;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** What a file is read against: the site's names, its rules, and the yardsticks of readings, each read once for a whole file. */
@Component
@Transactional(readOnly = true)
class Shelves {

    private static final String CURRENT = """
            select r.id, r.subject, r.true_from, r.true_until, r.recorded_at, r.body::text from ledger_record r
            where r.site_id = ? and r.kind = ? and not r.withdrawn
              and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
            order by r.true_from desc, r.recorded_at desc, r.id desc""";

    private final JdbcTemplate jdbc;
    private final People people;
    private final Kit kit;
    private final Programme programme;
    private final SiteRegister sites;
    private final RuleShelf shelf;

    Shelves(JdbcTemplate jdbc, People people, Kit kit, Programme programme, SiteRegister sites, RuleShelf shelf) {
        this.jdbc = jdbc;
        this.people = people;
        this.kit = kit;
        this.programme = programme;
        this.sites = sites;
        this.shelf = shelf;
    }

    Names names(SiteId site) {
        return new Names(sort -> read(site, sort));
    }

    private Map<String, UUID> read(SiteId site, Names.Sort sort) {
        Map<String, UUID> ids = new HashMap<>();
        switch (sort) {
            case WORKER ->
                people.all(site).forEach(one -> ids.put(one.number(), one.id().value()));
            case SET ->
                kit.sets(site).forEach(one -> ids.put(one.label(), one.id().value()));
            case MODEL ->
                kit.models(site).forEach(one -> ids.put(one.code(), one.id().value()));
            case TASK ->
                programme
                        .tasks(site)
                        .forEach(one -> ids.put(one.code(), one.id().value()));
            case INSTRUMENT ->
                kit.instruments(site)
                        .forEach(one -> ids.put(one.code(), one.id().value()));
            case SUPPLY ->
                kit.supplies(site).forEach(one -> ids.put(one.code(), one.id().value()));
        }
        return ids;
    }

    /** The codes of a file that holds nothing else, in their order. */
    List<String> codes(SiteId site, FileKind kind) {
        Names.Sort sort = kind.register();
        return sort == null
                ? List.of()
                : read(site, sort).keySet().stream().sorted().toList();
    }

    /** @throws org.hoodkeeper.kernel.Refused when a decision's key or value is not of a form that the rules know */
    void checkDecision(String key, String value) {
        shelf.check(key, value);
    }

    ZoneId zone(SiteId site) {
        return sites.get(site).zone();
    }

    Moments moments(SiteId site) {
        SiteRules rules = rules(site);
        ZoneId zone = zone(site);
        Function<LocalDate, Boolean> sameDay = day -> {
            InForce.Decided decided = rules.at(Days.startOf(day, zone)).decision("evidence.date-only");
            return decided != null && decided.value().equals("same-day");
        };
        return new Moments(zone, sameDay);
    }

    FlowJudge flows(SiteId site) {
        return new FlowJudge(
                zone(site),
                bySubject(site, Kind.SET, SetData.class),
                bySubject(site, Kind.MODEL, ModelData.class),
                bySubject(site, Kind.CALIBRATION, Calibration.class),
                rules(site));
    }

    private SiteRules rules(SiteId id) {
        Site site = sites.get(id);
        List<Told<SiteDecision>> decisions = new ArrayList<>();
        jdbc.query(
                CURRENT.replace("r.body::text", "r.body::text, r.scope"),
                row -> {
                    decisions.add(told(row, SiteDecision.class, row.getString(7)));
                },
                id.value(),
                Kind.SITE_DECISION.number());
        return new SiteRules(site.zone(), site.firstRuleSet(), shelf.knownAt(Instant.MAX), decisions);
    }

    private <F extends Fact> Map<UUID, List<Told<F>>> bySubject(SiteId site, Kind kind, Class<F> type) {
        Map<UUID, List<Told<F>>> all = new HashMap<>();
        jdbc.query(
                CURRENT,
                row -> {
                    Told<F> told = told(row, type, null);
                    all.computeIfAbsent(told.subject(), subject -> new ArrayList<>())
                            .add(told);
                },
                site.value(),
                kind.number());
        return all;
    }

    private static <F extends Fact> Told<F> told(ResultSet row, Class<F> type, @Nullable String scope)
            throws SQLException {
        Timestamp until = row.getTimestamp(4);
        return new Told<>(
                new RecordId(row.getObject(1, UUID.class)),
                row.getObject(2, UUID.class),
                null,
                scope,
                row.getTimestamp(3).toInstant(),
                until == null ? null : until.toInstant(),
                row.getTimestamp(5).toInstant(),
                null,
                FactJson.read(row.getString(6), type));
    }
}
