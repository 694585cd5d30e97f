package org.hoodkeeper.access;

import java.util.List;
import org.hoodkeeper.database.StartNotice;
import org.springframework.stereotype.Component;

/**
 * On a database without any account, tells where to begin: after everything that runs at the start, so that a demo has laid
 * its accounts by then. On the console and not in the log: logs are collected, forwarded and kept, and this line is a key for
 * an hour.
 */
@Component
class FirstStart implements StartNotice {

    private final Accounts accounts;
    private final FirstAdministrator first;

    FirstStart(Accounts accounts, FirstAdministrator first) {
        this.accounts = accounts;
        this.first = first;
    }

    @Override
    public List<String> lines(String address) {
        return accounts.none()
                ? List.of(
                        "",
                        "There is no account yet. Make the first administrator and the first site here:",
                        "  " + address + "/first-administrator/" + first.makeLink(),
                        "The link works once, for 60 minutes; behind a proxy put its address in place of this one.",
                        "A new start prints a new one.")
                : List.of();
    }
}
