package org.hoodkeeper.access.edge;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hoodkeeper.access.CommandTokens;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.AbstractAuthenticationToken;
import org.springframework.security.core.authority.FactorGrantedAuthority;

/** A command that has shown a token. Good for one site and some of the account's roles. */
class TokenAuthentication extends AbstractAuthenticationToken {

    private static final long serialVersionUID = 1;

    private final transient CommandTokens.Opened opened;

    TokenAuthentication(CommandTokens.Opened opened) {
        super(List.of(FactorGrantedAuthority.fromAuthority(FactorGrantedAuthority.BEARER_AUTHORITY)));
        this.opened = opened;
        setAuthenticated(true);
    }

    SiteId site() {
        return opened.site();
    }

    /** Whose token it is, as of this call; see {@link CommandTokens.Opened#holder}. */
    Optional<Viewer> holder() {
        return Optional.ofNullable(opened.holder());
    }

    Set<Role> roles() {
        return opened.roles();
    }

    @Override
    public KnownAccount getPrincipal() {
        return opened.account();
    }

    @Override
    public @Nullable Object getCredentials() {
        return null;
    }
}
