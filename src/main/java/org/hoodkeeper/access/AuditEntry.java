package org.hoodkeeper.access;

import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.jspecify.annotations.Nullable;

/**
 * One thing that happened, for the audit trail. Holds ids and codes only, never a name, free text or a secret, so that
 * nothing in it ever has to be erased.
 *
 * @param kind dotted words, such as {@code signIn.refused}
 * @param actor who did it, where known
 * @param subject what it was done to
 * @param source the network address it came from
 * @param detail codes, at most 400 signs; longer is cut
 */
public record AuditEntry(
        String kind,
        @Nullable AccountId actor,
        @Nullable UUID subject,
        @Nullable String source,
        @Nullable String detail) {

    private static final int LONGEST_DETAIL = 400;

    public AuditEntry {
        if (detail != null && detail.length() > LONGEST_DETAIL) {
            detail = detail.substring(0, LONGEST_DETAIL);
        }
    }

    public static AuditEntry of(String kind) {
        return new AuditEntry(kind, null, null, null, null);
    }

    public AuditEntry by(@Nullable AccountId who) {
        return new AuditEntry(kind, who, subject, source, detail);
    }

    public AuditEntry about(Id what) {
        return about(what.value());
    }

    public AuditEntry about(UUID what) {
        return new AuditEntry(kind, actor, what, source, detail);
    }

    public AuditEntry from(@Nullable String where) {
        return new AuditEntry(kind, actor, subject, where, detail);
    }

    public AuditEntry saying(String codes) {
        return new AuditEntry(kind, actor, subject, source, codes);
    }
}
