package org.hoodkeeper.access;

import java.io.Serializable;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.springframework.security.core.AuthenticatedPrincipal;

/** The account that is signed in, as a session keeps it. Says nothing of roles: those are read on every request. */
public record KnownAccount(UUID account, String login, String name) implements AuthenticatedPrincipal, Serializable {

    private static final long serialVersionUID = 1;

    public AccountId id() {
        return new AccountId(account);
    }

    /** The account's id, by which its sessions are found. */
    @Override
    public String getName() {
        return account.toString();
    }
}
