package org.hoodkeeper.access;

import com.fasterxml.uuid.Generators;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The only door to the audit trail. Entries join the transaction that they tell of, so that neither is kept without the
 * other; the database lets nobody who serves pages change or remove one.
 */
@Service
@Transactional
public class AuditTrail {

    private final JdbcClient jdbc;

    AuditTrail(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Records what happened on a site. The site must be the one bound to this thread. */
    public void record(SiteId site, AuditEntry entry) {
        insert(
                "audit_event (site_id, recorded_at, event_id, kind, actor, subject, source, detail)"
                        + " values (:site, audit_clock(:site),",
                entry,
                site);
    }

    /** Records what belongs to no site. */
    public void record(AuditEntry entry) {
        insert(
                "service_audit_event (recorded_at, event_id, kind, actor, subject, source, detail)"
                        + " values (audit_clock(null),",
                entry,
                null);
    }

    /**
     * Notes that somebody was shown what is recorded of a person. Nothing where it is that person.
     *
     * @param page which page showed it, as the first part of its address
     */
    public void seen(Viewer viewer, WorkerId person, String page) {
        if (!viewer.isSelf(person)) {
            record(
                    viewer.site(),
                    AuditEntry.of("person.seen")
                            .by(viewer.account())
                            .about(person)
                            .saying(page));
        }
    }

    /** As {@link #seen(Viewer, WorkerId, String)}, once for each of them. */
    public void seen(Viewer viewer, Set<WorkerId> persons, String page) {
        persons.forEach(person -> seen(viewer, person, page));
    }

    private void insert(String head, AuditEntry entry, @Nullable SiteId site) {
        AccountId actor = entry.actor();
        UUID event = Generators.timeBasedEpochGenerator().generate();
        JdbcClient.StatementSpec insert =
                jdbc.sql("insert into " + head + " :event, :kind, :actor, :subject, :source, :detail)");
        if (site != null) {
            insert = insert.param("site", site.value());
        }
        insert.param("event", event)
                .param("kind", entry.kind())
                .param("actor", actor == null ? null : actor.value())
                .param("subject", entry.subject())
                .param("source", entry.source())
                .param("detail", entry.detail())
                .update();
    }
}
