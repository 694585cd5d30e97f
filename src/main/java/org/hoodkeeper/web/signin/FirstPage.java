package org.hoodkeeper.web.signin;

import java.util.Set;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;

/** The page on which each role's question is answered without a click. */
final class FirstPage {

    private FirstPage() {}

    /** With several roles the widest view wins: the board, then the bench, then one's own day. */
    static String of(Site site, Set<Role> held) {
        String base = "/sites/" + site.code();
        if (held.equals(Set.of(Role.ADMINISTRATOR))) {
            return base + "/accounts";
        }
        if (Set.of(Role.WORKER).containsAll(held)) {
            return base + "/today";
        }
        if (Set.of(Role.WORKER, Role.STOREKEEPER).containsAll(held)) {
            return base + "/bench";
        }
        return base + "/board";
    }
}
