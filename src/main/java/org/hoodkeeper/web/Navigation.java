package org.hoodkeeper.web;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Role;
import org.jspecify.annotations.Nullable;

/** Which first pages each role finds in the header, in the order shown; a page may serve several roles. */
enum Navigation {
    MINE("/today", Set.of(Role.WORKER)),
    BENCH("/bench", Set.of(Role.STOREKEEPER)),
    BOARD("/board", Set.of(Role.OFFICER, Role.SUPERVISOR, Role.EMPLOYER)),
    EXPOSURE("/tasks", Set.of(Role.OFFICER, Role.HYGIENIST, Role.SUPERVISOR)),
    OUTCOMES("/outcomes", Set.of(Role.HEALTH)),
    STORE(Way.Overview.STORE, Set.of(Role.STOREKEEPER, Role.OFFICER)),
    FINDINGS("/findings", Set.of(Role.OFFICER)),
    PROOF(Way.Overview.PROOF, Set.of(Role.OFFICER)),
    READY("/ready", Set.of(Role.SUPERVISOR)),
    RECALLS("/recalls", Set.of(Role.SUPERVISOR)),
    LOOK_BACKS("/look-backs", Set.of(Role.SUPERVISOR)),
    RECORD("/record", Set.of(Role.OFFICER, Role.SUPERVISOR, Role.TRAINER, Role.HYGIENIST)),
    REGISTER("/register", Set.of(Role.OFFICER, Role.STOREKEEPER, Role.HYGIENIST)),
    FILES("/files", Set.of(Role.OFFICER, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.EMPLOYER)),
    TRAIL("/trail", Set.of(Role.ADMINISTRATOR)),
    REQUESTS("/requests", Set.of(Role.OFFICER, Role.ADMINISTRATOR)),
    ACCOUNTS("/accounts", Set.of(Role.ADMINISTRATOR));

    private final String path;
    private final Way.@Nullable Overview overview;
    private final Set<Role> roles;

    Navigation(String path, Set<Role> roles) {
        this.path = path;
        this.overview = null;
        this.roles = roles;
    }

    Navigation(Way.Overview overview, Set<Role> roles) {
        this.path = overview.path();
        this.overview = overview;
        this.roles = roles;
    }

    static List<NavLink> of(AtSite at, String shownPath) {
        return Stream.of(values())
                .filter(entry -> entry.roles.stream().anyMatch(at.viewer()::is))
                .map(entry -> entry.link("/sites/" + at.code(), shownPath))
                .toList();
    }

    private NavLink link(String site, String shownPath) {
        String href = site + path;
        boolean under = overview != null
                && shownPath.startsWith(site + "/")
                && Way.leadsTo(overview, shownPath.substring(site.length()));
        boolean here = under || shownPath.equals(href) || shownPath.startsWith(href + "/");
        return new NavLink(href, "chrome.nav." + name(), here);
    }
}
