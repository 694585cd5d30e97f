package org.hoodkeeper.access;

import com.fasterxml.uuid.Generators;
import java.sql.Array;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Tokens by which commands act for an account, on one site, with some of its roles. Each person makes their own: nobody
 * else can hold a key to what that person may see. A token never does more than its account may do at that moment.
 *
 * <p>A token reads {@code hk1.<site code>.<256 random bits>}; the code in it lets every look-up start with the site.
 */
@Service
@Transactional
public class CommandTokens {

    private static final String PREFIX = "hk1";
    private static final int PARTS = 3;
    private static final int LONGEST_NAME = 80;

    /** A token as its owner and the administrator see it. */
    public record Line(
            UUID id,
            AccountId account,
            String login,
            String name,
            Set<Role> roles,
            Instant madeAt,
            @Nullable Instant lastUsedAt,
            @Nullable Instant revokedAt) {}

    /**
     * What a shown token opens.
     *
     * @param isNews its last use was noted more than a minute ago
     * @param holder whose token it is, as a reader of the site with every role held there; none when none is held any more
     */
    public record Opened(
            SiteId site,
            KnownAccount account,
            Set<Role> roles,
            UUID token,
            boolean isNews,
            @Nullable Viewer holder) {}

    private final JdbcClient jdbc;
    private final Accounts accounts;
    private final SiteRegister sites;
    private final AuditTrail audit;

    CommandTokens(JdbcClient jdbc, Accounts accounts, SiteRegister sites, AuditTrail audit) {
        this.jdbc = jdbc;
        this.accounts = accounts;
        this.sites = sites;
        this.audit = audit;
    }

    /**
     * Makes a token for the viewer's own account and site.
     *
     * @param name what the owner knows it by, 1 to 80 signs
     * @param roles some of the viewer's roles
     * @return the token, shown once
     * @throws Refused {@code access.token.name.length}, {@code access.token.name.taken} or {@code access.token.roles}
     */
    public String make(String name, Set<Role> roles, Viewer by) {
        if (name.isBlank() || name.strip().length() > LONGEST_NAME) {
            throw new Refused("access.token.name.length", LONGEST_NAME);
        }
        if (roles.isEmpty() || !by.roles().containsAll(roles)) {
            throw new Refused("access.token.roles");
        }
        boolean taken = ownOf(by).stream()
                .anyMatch(line -> line.revokedAt() == null && line.name().equalsIgnoreCase(name.strip()));
        if (taken) {
            throw new Refused("access.token.name.taken", name.strip());
        }
        UUID id = Generators.timeBasedEpochGenerator().generate();
        String secret = Secret.make();
        jdbc.sql("insert into account_token (site_id, token_id, account_id, name, roles, secret_hash)"
                        + " values (:site, :token, :account, :name, string_to_array(:roles, ','), :hash)")
                .param("site", by.site().value())
                .param("token", id)
                .param("account", by.account().value())
                .param("name", name.strip())
                .param("roles", roles.stream().map(Role::name).sorted().collect(Collectors.joining(",")))
                .param("hash", Secret.hash(secret))
                .update();
        audit.record(by.site(), AuditEntry.of("token.made").by(by.account()).about(id));
        return PREFIX + "." + sites.get(by.site()).code() + "." + secret;
    }

    /** The viewer's own tokens, newest first. */
    @Transactional(readOnly = true)
    public List<Line> ownOf(Viewer viewer) {
        return lines(viewer.site()).stream()
                .filter(line -> line.account().equals(viewer.account()))
                .toList();
    }

    /** One account's tokens on a site, newest first, for its administrator. */
    @Transactional(readOnly = true)
    public List<Line> of(SiteId site, AccountId account) {
        return lines(site).stream()
                .filter(line -> line.account().equals(account))
                .toList();
    }

    /**
     * Ends a token, at once and for good.
     *
     * @throws NotFound when the token is neither the viewer's own nor on a site that the viewer administers
     */
    public void revoke(UUID token, Viewer by) {
        Line line = lines(by.site()).stream()
                .filter(one -> one.id().equals(token))
                .filter(one -> one.account().equals(by.account()) || by.is(Role.ADMINISTRATOR))
                .findFirst()
                .orElseThrow(() -> new NotFound("access.token.unknown"));
        jdbc.sql("update account_token set revoked_at = now() where site_id = :site and token_id = :token"
                        + " and revoked_at is null")
                .param("site", by.site().value())
                .param("token", line.id())
                .update();
        audit.record(by.site(), AuditEntry.of("token.revoked").by(by.account()).about(token));
    }

    /** The site a token says it is for, before anything about it is proven. */
    @Transactional(readOnly = true)
    public Optional<Site> siteNamedIn(String token) {
        String[] parts = token.split("\\.", -1);
        return parts.length == PARTS && parts[0].equals(PREFIX) ? sites.find(parts[1]) : Optional.empty();
    }

    /**
     * Opens what a token stands for. Empty when it is revoked, unknown or its account disabled: {@link #noteRefusal} then.
     * Only reads, so that commands with one token do not wait for each other; {@link #noteUse} when its use is news.
     */
    @Transactional(readOnly = true)
    public Optional<Opened> open(Site site, String token) {
        return jdbc.sql("select a.account_id, a.login, a.name, t.roles, t.token_id,"
                        + " coalesce(t.last_used_at < now() - interval '1 minute', true) as news"
                        + " from account_token t join account a on a.account_id = t.account_id"
                        + " where t.site_id = :site and t.secret_hash = :hash and t.revoked_at is null"
                        + " and a.disabled_at is null")
                .param("site", site.id().value())
                .param("hash", Secret.hash(token.substring(token.lastIndexOf('.') + 1)))
                .query((row, index) -> new Opened(
                        site.id(),
                        new KnownAccount(
                                row.getObject("account_id", UUID.class), row.getString("login"), row.getString("name")),
                        roles(row.getArray("roles")),
                        row.getObject("token_id", UUID.class),
                        row.getBoolean("news"),
                        null))
                .optional()
                .map(this::withHolder);
    }

    /** In the same look at the database: a command opens its token with each call. */
    private Opened withHolder(Opened opened) {
        Viewer holder = accounts.viewer(opened.site(), opened.account().id()).orElse(null);
        return new Opened(opened.site(), opened.account(), opened.roles(), opened.token(), opened.isNews(), holder);
    }

    /** Notes its use, once a minute however often it is used. The site must be the one bound to this thread. */
    public void noteUse(Opened opened, String source) {
        int noted = jdbc.sql("update account_token set last_used_at = now() where site_id = :site and token_id = :token"
                        + " and coalesce(last_used_at < now() - interval '1 minute', true)")
                .param("site", opened.site().value())
                .param("token", opened.token())
                .update();
        if (noted > 0) {
            audit.record(
                    opened.site(),
                    AuditEntry.of("token.used")
                            .by(opened.account().id())
                            .about(opened.token())
                            .from(source));
        }
    }

    /** The site must be the one bound to this thread. */
    public void noteRefusal(Site site, String source) {
        audit.record(site.id(), AuditEntry.of("token.refused").from(source));
    }

    private List<Line> lines(SiteId site) {
        return jdbc.sql("select t.token_id, t.account_id, a.login, t.name, t.roles, t.made_at, t.last_used_at,"
                        + " t.revoked_at from account_token t join account a on a.account_id = t.account_id"
                        + " where t.site_id = :site order by t.token_id desc")
                .param("site", site.value())
                .query((row, index) -> new Line(
                        row.getObject("token_id", UUID.class),
                        new AccountId(row.getObject("account_id", UUID.class)),
                        row.getString("login"),
                        row.getString("name"),
                        roles(row.getArray("roles")),
                        row.getObject("made_at", OffsetDateTime.class).toInstant(),
                        instant(row, "last_used_at"),
                        instant(row, "revoked_at")))
                .list();
    }

    private static Set<Role> roles(Array names) throws SQLException {
        return Arrays.stream((String[]) names.getArray()).map(Role::valueOf).collect(Collectors.toUnmodifiableSet());
    }

    private static @Nullable Instant instant(ResultSet row, String column) throws SQLException {
        OffsetDateTime at = row.getObject(column, OffsetDateTime.class);
        return at == null ? null : at.toInstant();
    }
}
