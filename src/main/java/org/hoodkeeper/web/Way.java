package org.hoodkeeper.web;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;

/** The pages behind the two overviews of the header, in the order shown there. */
public enum Way {
    READY(Overview.STORE, "/ready", Set.of(Role.STOREKEEPER, Role.OFFICER)),
    WASH(Overview.STORE, "/wash", Set.of(Role.STOREKEEPER, Role.OFFICER)),
    EXAMINATIONS(Overview.STORE, "/examinations", Set.of(Role.STOREKEEPER, Role.OFFICER)),
    STOCK(Overview.STORE, "/stock", Set.of(Role.STOREKEEPER, Role.OFFICER)),
    RECALLS(Overview.STORE, "/recalls", Set.of(Role.STOREKEEPER, Role.OFFICER)),
    LOOK_BACKS(Overview.STORE, "/look-backs", Set.of(Role.STOREKEEPER, Role.OFFICER)),
    LABELS(Overview.STORE, "/labels", Set.of(Role.STOREKEEPER, Role.OFFICER)),
    RECORDS(Overview.PROOF, "/records", Set.of(Role.OFFICER)),
    INCIDENT(Overview.PROOF, "/incident", Set.of(Role.OFFICER)),
    TRAIL(Overview.PROOF, "/trail", Set.of(Role.OFFICER)),
    VERIFY(Overview.PROOF, "/verify", Set.of(Role.OFFICER)),
    RETENTION(Overview.PROOF, "/retention", Set.of(Role.OFFICER)),
    DECISIONS(Overview.PROOF, "/decisions", Set.of(Role.OFFICER)),
    PARTICULARS(Overview.PROOF, "/particulars", Set.of(Role.OFFICER));

    /** What the header names instead of each page by itself. */
    public enum Overview {
        STORE("/store"),
        PROOF("/proof");

        private final String path;

        Overview(String path) {
            this.path = path;
        }

        String path() {
            return path;
        }
    }

    private final Overview overview;
    private final String path;
    private final Set<Role> roles;

    Way(Overview overview, String path, Set<Role> roles) {
        this.overview = overview;
        this.path = path;
        this.roles = roles;
    }

    /** Below the site's own address. */
    public String path() {
        return path;
    }

    static List<Way> of(Overview overview, Viewer viewer) {
        return Stream.of(values())
                .filter(way -> way.overview == overview && way.roles.stream().anyMatch(viewer::is))
                .toList();
    }

    /** @param below the address below the site's own */
    static boolean leadsTo(Overview overview, String below) {
        return Stream.of(values())
                .anyMatch(way ->
                        way.overview == overview && (below.equals(way.path) || below.startsWith(way.path + "/")));
    }
}
