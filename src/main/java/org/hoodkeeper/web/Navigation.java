package org.hoodkeeper.web;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;

/** Which first pages each role finds in the header, in the order shown; a page may serve several roles. */
enum Navigation {
    MINE("/me", Set.of(Role.WORKER)),
    SHIFT("/shift", Set.of(Role.SUPERVISOR)),
    BENCH("/bench", Set.of(Role.STOREKEEPER)),
    BOARD("/board", Set.of(Role.OFFICER, Role.SUPERVISOR, Role.EMPLOYER)),
    OUTCOMES("/outcomes", Set.of(Role.HEALTH)),
    RECORD("/record", Set.of(Role.OFFICER, Role.TRAINER, Role.HYGIENIST)),
    FILES("/files", Set.of(Role.OFFICER)),
    ACCOUNTS("/accounts", Set.of(Role.ADMINISTRATOR));

    private final String path;
    private final Set<Role> roles;

    Navigation(String path, Set<Role> roles) {
        this.path = path;
        this.roles = roles;
    }

    static List<NavLink> of(Viewer viewer, String shownPath) {
        return Stream.of(values())
                .filter(entry -> entry.roles.stream().anyMatch(viewer::is))
                .map(entry -> new NavLink(entry.path, "chrome.nav." + entry.name(), entry.holds(shownPath)))
                .toList();
    }

    private boolean holds(String shownPath) {
        return shownPath.equals(path) || shownPath.startsWith(path + "/");
    }
}
