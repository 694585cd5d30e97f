package org.hoodkeeper.demo;

import java.util.List;
import org.hoodkeeper.kernel.Role;
import org.jspecify.annotations.Nullable;

/**
 * Somebody who may sign in to the demo.
 *
 * @param about the worker's number for a worker, the employer's name for an employer
 */
record DemoPerson(
        String site,
        String login,
        String password,
        String name,
        Role role,
        @Nullable String about) {

    static final List<DemoPerson> EVERYONE = List.of(
            of("ferrow", "officer", "quarry-lantern-58", "R. Aldous", Role.OFFICER),
            of("ferrow", "store", "copper-thimble-27", "T. Garside", Role.STOREKEEPER),
            about("ferrow", "ana", "willow-barrow-64", "Ana Whitlow", Role.WORKER, "W-001"),
            about("ferrow", "gil", "meadow-pulley-39", "Gil Arden", Role.WORKER, "W-007"),
            about("ferrow", "ike", "harbour-cobble-71", "Ike Brandt", Role.WORKER, "W-009"),
            of("ferrow", "supervisor", "granite-sparrow-46", "D. Yarrow", Role.SUPERVISOR),
            of("ferrow", "trainer", "juniper-anvil-83", "M. Heald", Role.TRAINER),
            of("ferrow", "health", "saffron-gully-52", "Dr S. Vale", Role.HEALTH),
            of("ferrow", "hygienist", "thistle-beacon-95", "P. Norwood", Role.HYGIENIST),
            about("ferrow", "employer", "orchard-rivet-18", "N. More", Role.EMPLOYER, "Northmere Refractories"),
            of("ferrow", "admin", "lichen-turbine-77", "C. Hobb", Role.ADMINISTRATOR),
            of("pine", "pine-officer", "juncture-heron-34", "L. Prentiss", Role.OFFICER));

    private static DemoPerson of(String site, String login, String password, String name, Role role) {
        return new DemoPerson(site, login, password, name, role, null);
    }

    private static DemoPerson about(String site, String login, String password, String name, Role role, String about) {
        return new DemoPerson(site, login, password, name, role, about);
    }
}
