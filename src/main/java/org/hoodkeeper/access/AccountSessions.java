package org.hoodkeeper.access;

import org.hoodkeeper.kernel.AccountId;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.stereotype.Service;

/** The sessions an account has open, on whatever device. */
@Service
public class AccountSessions {

    private final FindByIndexNameSessionRepository<? extends Session> sessions;

    AccountSessions(FindByIndexNameSessionRepository<? extends Session> sessions) {
        this.sessions = sessions;
    }

    public int count(AccountId account) {
        return sessions.findByPrincipalName(account.toString()).size();
    }

    /** Signs the account out everywhere, at once. */
    public void end(AccountId account) {
        sessions.findByPrincipalName(account.toString()).keySet().forEach(sessions::deleteById);
    }
}
