package org.hoodkeeper.bench;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.access.BenchPassword;
import org.hoodkeeper.database.BenchDatabase;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.CopyLedger;
import org.hoodkeeper.ledger.Draft;

/**
 * Makes a site with five years of records: everything that a service would have written, through COPY, in minutes. Its past
 * ends an hour before it is made.
 */
final class Generator {

    static final String PASSWORD = "seven quiet herons wade";
    private static final String[] FIRST = {
        "Ana", "Bo", "Cyril", "Dara", "Emil", "Fern", "Gwen", "Hal", "Inès", "Jonas", "Kit", "Lena", "Mats", "Nora", "Oke",
        "Pia", "Rhys", "Sunniva", "Tove", "Una", "Vito", "Wren", "Yara", "Zeno"
    };
    private static final String[] LAST = {
        "Whitlow", "Sandell", "Vane", "Marsh", "Oakes", "Pell", "Quarrie", "Rudd", "Stroud", "Tarn", "Udell", "Voss",
        "Wain", "Yarrow", "Zander", "Brook", "Crane", "Dunlin", "Ennis", "Farrow"
    };

    private final BenchDatabase database;
    private final Size size;

    Generator(BenchDatabase database, Size size) {
        this.database = database;
        this.size = size;
    }

    /**
     * @param records in the ledger
     * @param entries of the chain
     * @param took generating and writing, with the indexes
     */
    record Made(SiteId site, long records, long entries, Duration took, List<Pair> pairs) {}

    Made make() throws Exception {
        Instant begun = Instant.now();
        Instant end = begun.truncatedTo(ChronoUnit.HOURS).minus(Duration.ofHours(1));
        Instant start = end.minus(Duration.ofDays(7L * Size.WEEKS));
        SiteId site = new SiteId(UUID.nameUUIDFromBytes(
                (size.code() + size.seed()).getBytes(java.nio.charset.StandardCharsets.UTF_8)));
        List<String> indexes = database() ? dropIndexes() : List.of();
        UUID officer = account(site, 1);
        List<Pair> pairs = new ArrayList<>(size.workers());
        CopyLedger ledger = new CopyLedger(site, officer, size.seed(), database::superuser);
        Ground ground = new Ground(site, start, size.workers(), ledger::id);
        try (ledger) {
            for (int i = 0; i < size.workers(); i++) {
                pairs.add(new Pair(i, new WorkerId(ledger.id(start)), new SetId(ledger.id(start)), ground, size));
            }
            openSite(site, start);
            tell(ledger::tell, ground, pairs, size, start, end);
            names(site, ground, pairs);
        }
        head(ledger);
        indexes(indexes);
        // what lies on the shelf is found through the indexes
        custody(site);
        accounts(site, officer, pairs);
        settle();
        return new Made(
                site, ledger.count(), ledger.entries(), Duration.between(begun, Instant.now()), List.copyOf(pairs));
    }

    /** Tells five years, week by week. */
    static void tell(Week.Ear ledger, Ground ground, List<Pair> pairs, Size size, Instant start, Instant end) {
        ledger.tell(start, Author.Via.IMPORT, ground.drafts, false);
        Week week = new Week(ledger, size.seed(), end);
        for (int number = 0; number < Size.WEEKS; number++) {
            Instant monday = start.plus(Duration.ofDays(7L * number));
            for (Draft draft : ground.upkeep(number, monday.plusSeconds(3_600))) {
                week.told(monday.plusSeconds(7_200), Author.Via.FORM, draft);
            }
            for (Pair pair : pairs) {
                pair.week(number, monday, week);
            }
            if (size.heavy() > 0) {
                pairs.get(0).heavy(size.heavy() / Size.WEEKS, monday, week);
            }
            week.write(monday);
        }
        week.finish();
    }

    /** Only an empty ledger is filled without its indexes: building them again would take longer. */
    private boolean database() throws SQLException {
        try (Connection connection = database.superuser();
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("select not exists (select 1 from ledger_record)")) {
            row.next();
            return row.getBoolean(1);
        }
    }

    private List<String> dropIndexes() throws SQLException {
        List<String> definitions = new ArrayList<>();
        try (Connection connection = database.superuser();
                Statement statement = connection.createStatement()) {
            List<String> names = new ArrayList<>();
            try (ResultSet row = statement.executeQuery("""
                    select i.indexname, i.indexdef from pg_indexes i
                    where i.tablename in ('ledger_entry', 'ledger_record')
                      and not exists (select 1 from pg_constraint c where c.conname = i.indexname)""")) {
                while (row.next()) {
                    names.add(row.getString(1));
                    definitions.add(row.getString(2));
                }
            }
            for (String name : names) {
                statement.execute("drop index " + name);
            }
            statement.execute("alter table ledger_record disable trigger ledger_set_told");
        }
        return definitions;
    }

    private void indexes(List<String> definitions) throws SQLException {
        try (Connection connection = database.superuser();
                Statement statement = connection.createStatement()) {
            statement.execute("set maintenance_work_mem = '512MB'");
            for (String definition : definitions) {
                statement.execute(definition);
            }
            statement.execute("alter table ledger_record enable trigger ledger_set_told");
            statement.execute("analyze ledger_record");
        }
    }

    private void settle() throws SQLException {
        try (Connection connection = database.superuser();
                Statement statement = connection.createStatement()) {
            statement.execute("vacuum (analyze, freeze)");
            statement.execute("checkpoint");
        }
    }

    private void openSite(SiteId site, Instant start) throws SQLException {
        try (Connection connection = database.superuser();
                PreparedStatement insert = connection.prepareStatement(
                        "insert into site (site_id, code, name, zone, first_rule_set, made_at) values (?, ?, ?, ?, ?, ?)")) {
            insert.setObject(1, site.value());
            insert.setString(2, size.code());
            insert.setString(3, "Works " + size.code());
            insert.setString(4, "Europe/London");
            insert.setString(5, "uk");
            insert.setObject(6, start.atOffset(ZoneOffset.UTC));
            insert.executeUpdate();
        }
    }

    private void names(SiteId site, Ground ground, List<Pair> pairs) throws Exception {
        try (CopyLedger.Stream workers =
                        new CopyLedger.Stream(database::superuser, "worker (site_id, id, number, name, employer)");
                CopyLedger.Stream sets = new CopyLedger.Stream(database::superuser, "kit_set (site_id, id, label)");
                CopyLedger.Stream models = new CopyLedger.Stream(database::superuser, "kit_model (site_id, id, code)");
                CopyLedger.Stream tasks = new CopyLedger.Stream(database::superuser, "task (site_id, id, code)");
                CopyLedger.Stream instruments =
                        new CopyLedger.Stream(database::superuser, "kit_instrument (site_id, id, code)");
                CopyLedger.Stream supplies =
                        new CopyLedger.Stream(database::superuser, "kit_supply (site_id, id, code)")) {
            for (Pair pair : pairs) {
                int i = pair.index;
                String name = FIRST[i % FIRST.length] + " " + LAST[i / FIRST.length % LAST.length];
                String employer = i % 7 == 3 ? "Calder Contracting" : null;
                workers.line(site.value(), pair.worker.value(), number(i), name, employer);
                sets.line(site.value(), pair.set.value(), label(i));
            }
            ground.models.forEach((code, id) -> models.line(site.value(), id.value(), code));
            for (int i = 0; i < ground.tasks.size(); i++) {
                tasks.line(site.value(), ground.tasks.get(i).value(), taskCode(i));
            }
            for (int i = 0; i < ground.instruments.size(); i++) {
                instruments.line(site.value(), ground.instruments.get(i).value(), "FI-" + i);
            }
            for (int i = 0; i < ground.supplies.size(); i++) {
                supplies.line(site.value(), ground.supplies.get(i).value(), "C-" + i);
            }
        }
    }

    static String number(int index) {
        return String.format("W-%05d", index);
    }

    static String label(int index) {
        return String.format("S-%05d", index);
    }

    static String taskCode(int index) {
        return "T" + (index + 1);
    }

    private void head(CopyLedger ledger) throws SQLException {
        try (Connection connection = database.superuser();
                PreparedStatement insert = connection.prepareStatement(
                        "insert into ledger_head (site_id, position, hash, recorded_at) values (?, ?, ?, ?)")) {
            Object[] head = ledger.head();
            for (int i = 0; i < head.length; i++) {
                insert.setObject(i + 1, head[i]);
            }
            insert.executeUpdate();
        }
    }

    /** The periods follow from the claims; here each set was issued once and not returned. */
    private void custody(SiteId site) throws SQLException {
        try (Connection connection = database.superuser();
                PreparedStatement insert = connection.prepareStatement("""
                        insert into kit_custody (site_id, set_id, worker_id, claim_id, during)
                        select r.site_id, r.subject, r.item, r.id, tstzrange(r.true_from, null) from ledger_record r
                        where r.site_id = ? and r.kind = 5 and r.item is not null""")) {
            insert.setObject(1, site.value());
            insert.executeUpdate();
        }
        try (Connection connection = database.superuser();
                PreparedStatement shelve = connection.prepareStatement(
                        "select kit_shelve(s.site_id, s.id) from kit_set s where s.site_id = ?")) {
            shelve.setObject(1, site.value());
            shelve.execute();
        }
    }

    /** An officer, a storekeeper, an administrator, and a worker's account for each of the first thousand. */
    private void accounts(SiteId site, UUID officer, List<Pair> pairs) throws Exception {
        String password = BenchPassword.encoded(PASSWORD);
        try (CopyLedger.Stream accounts =
                        new CopyLedger.Stream(database::superuser, "account (account_id, login, name, password)");
                CopyLedger.Stream roles = new CopyLedger.Stream(
                        database::superuser, "account_role (site_id, account_id, role, worker_id)");
                CopyLedger.Stream tokens = new CopyLedger.Stream(
                        database::superuser, "account_token (site_id, token_id, account_id, name, roles, secret_hash)")) {
            tokens.line(
                    site.value(), officer, officer, "bench", "{OFFICER,STOREKEEPER}", BenchPassword.hash(size.code()));
            String[] staff = {"OFFICER", "STOREKEEPER", "ADMINISTRATOR"};
            for (int i = 0; i < staff.length; i++) {
                UUID id = i == 0 ? officer : account(site, i + 1);
                String login = size.code() + "-" + staff[i].toLowerCase(java.util.Locale.ROOT);
                accounts.line(id, login, staff[i], password);
                roles.line(site.value(), id, staff[i], null);
            }
            for (Pair pair : pairs.subList(0, Math.min(1_000, pairs.size()))) {
                UUID id = account(site, 100 + pair.index);
                accounts.line(id, login(size.code(), pair.index), "Worker " + pair.index, password);
                roles.line(site.value(), id, "WORKER", pair.worker.value());
            }
        }
    }

    /** An account belongs to no site, and two sites of one seed have the same people. */
    private static UUID account(SiteId site, int number) {
        return new UUID(site.value().getMostSignificantBits(), number);
    }

    /** For commands of the officer. */
    static String token(String site) {
        return "hk1." + site + "." + site;
    }

    static String login(String site, int index) {
        return site + "-" + number(index).toLowerCase(java.util.Locale.ROOT);
    }
}
