package org.hoodkeeper.oversight;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import javax.sql.DataSource;
import org.hoodkeeper.access.AuditChain;
import org.hoodkeeper.database.CannotStart;
import org.hoodkeeper.database.ReadingRole;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Chain;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataAccessException;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;

/**
 * The program behind {@code ops/verify-chain}: reads every chain as the role that may only read, beside the running service. A
 * head that was taken out earlier is compared with the seal at its position today, so that the proof does not rest on whoever
 * owns the database.
 */
public final class VerifyChain {

    private final DataSource dataSource;
    private final Chain chain;
    private final AuditChain audit;
    private final JdbcTemplate jdbc;
    private final PrintStream out;

    VerifyChain(DataSource dataSource, PrintStream out) {
        this.dataSource = dataSource;
        this.jdbc = new JdbcTemplate(dataSource);
        this.chain = new Chain(dataSource);
        this.audit = new AuditChain(jdbc);
        this.out = out;
    }

    /** Leaves with 0 when all is whole, 1 when something is broken, 2 when it could not be checked. */
    public static void main(String[] arguments) {
        try {
            List<String> earlier = arguments.length == 2 && arguments[0].equals("--head")
                    ? Files.readAllLines(Path.of(arguments[1]))
                    : List.of();
            if (arguments.length != 0 && earlier.isEmpty()) {
                System.err.println("usage: ops/verify-chain [--head FILE]");
                System.exit(2);
            }
            System.exit(new VerifyChain(ReadingRole.of(System.getenv()), System.out).run(earlier) ? 0 : 1);
        } catch (CannotStart | DataAccessException | IOException failed) {
            System.err.println("could not be checked: " + failed.getMessage());
            System.exit(2);
        }
    }

    /** @param earlier lines that an earlier run printed; only those that begin with {@code head} count */
    boolean run(List<String> earlier) {
        boolean whole = true;
        Map<String, UUID> sites = new LinkedHashMap<>();
        jdbc.query("select code, site_id from site order by code", row -> {
            sites.put(row.getString(1), row.getObject(2, UUID.class));
        });
        for (Map.Entry<String, UUID> site : sites.entrySet()) {
            SiteId id = new SiteId(site.getValue());
            whole &= say(site.getKey(), ChainHead.Of.RECORD, chain.check(id));
            whole &= say(site.getKey(), ChainHead.Of.AUDIT, checkAudit(id));
        }
        whole &= say(ChainHead.SERVICE, ChainHead.Of.AUDIT, checkAudit(null));
        for (String line : ChainHead.lines(String.join("\n", earlier))) {
            whole &= compare(line, sites);
        }
        out.println(whole ? "whole" : "BROKEN");
        return whole;
    }

    /** At one snapshot: the service goes on sealing meanwhile. */
    private Chain.Checked checkAudit(@Nullable SiteId site) {
        try (Connection connection = dataSource.getConnection()) {
            connection.setReadOnly(true);
            connection.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
            connection.setAutoCommit(false);
            return new AuditChain(new JdbcTemplate(new SingleConnectionDataSource(connection, true))).check(site);
        } catch (SQLException broken) {
            throw new DataAccessResourceFailureException("the audit trail could not be read to its end", broken);
        }
    }

    private boolean say(String site, ChainHead.Of what, Chain.Checked checked) {
        out.println("checked " + site + " " + what.word() + " " + checked.entries() + " sealed, " + checked.unsealed()
                + " not sealed yet");
        out.println(new ChainHead(site, what, checked.position(), checked.head()).line());
        checked.broken()
                .forEach(one -> out.println("broken " + site + " " + what.word() + " at " + one.position() + ": "
                        + one.what() + (one.id() == null ? "" : " " + one.id())));
        return checked.isWhole();
    }

    private boolean compare(String line, Map<String, UUID> sites) {
        try {
            ChainHead head = ChainHead.parse(line);
            String today = today(head, sites);
            boolean same = head.hash().equals(today);
            out.println((same ? "same " : "DIFFERS ") + line + (same ? "" : ", today " + today));
            return same;
        } catch (Refused unreadable) {
            out.println("UNREADABLE " + line);
            return false;
        }
    }

    private @Nullable String today(ChainHead head, Map<String, UUID> sites) {
        if (head.site().equals(ChainHead.SERVICE)) {
            return audit.seal(null, head.position()).hash();
        }
        UUID site = sites.get(head.site());
        if (site == null) {
            return null;
        }
        return head.of() == ChainHead.Of.AUDIT
                ? audit.seal(new SiteId(site), head.position()).hash()
                : chain.seal(new SiteId(site), head.position()).hash();
    }
}
