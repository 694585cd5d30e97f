package org.hoodkeeper.oversight;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;

/** What the audit trail can be asked for; an event may be of two sorts. */
public enum TrailSort {
    WRITE(Trail.TOLD, "file.recorded", "worker.added", "task.added", "instrument.added", "supply.added"),
    SIGN_IN("signIn.accepted", "signIn.refused", "token.used", "token.refused"),
    REFUSED(
            "form.refused",
            "address.refused",
            "access.refused",
            "access.noSuchSite",
            "access.otherPage",
            "signIn.refused",
            "token.refused"),
    EXPORT("file.taken", "incident.exported", "trail.exported", "labels.printed", "head.taken"),
    SEEN("person.seen", "record.seen"),
    ACCOUNT(
            "account.laid",
            "account.added",
            "account.disabled",
            "account.enabled",
            "role.given",
            "role.taken",
            "request.asked",
            "request.confirmed",
            "request.declined",
            "sessions.ended",
            "passwordLink.made",
            "password.chosen",
            "token.made",
            "token.revoked",
            "site.opened"),
    PROOF("chain.verified", "head.compared");

    private final Set<String> kinds;

    TrailSort(String... kinds) {
        this.kinds = new LinkedHashSet<>(List.of(kinds));
    }

    public Set<String> kinds() {
        return Set.copyOf(kinds);
    }

    /** The safety officer searches all; an administrator, who may see nothing medical, sign-ins and accounts alone. */
    public static List<TrailSort> openTo(Viewer viewer) {
        return viewer.is(Role.OFFICER)
                ? List.of(values())
                : viewer.is(Role.ADMINISTRATOR) ? List.of(SIGN_IN, ACCOUNT) : List.of();
    }

    /** Every kind of event of any sort. */
    public static List<String> allKinds() {
        return Stream.of(values())
                .flatMap(sort -> sort.kinds.stream())
                .distinct()
                .toList();
    }
}
