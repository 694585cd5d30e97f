package org.hoodkeeper.web.record;

import org.hoodkeeper.evidence.Entitled;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Subject;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.History;

/**
 * Who may open a record whole: whoever may correct it, the person it is about, whoever told it, and the safety officer. A report
 * of symptoms: the person and the health role alone. Why a medical record was corrected: the health role alone.
 */
public final class Sight {

    private Sight() {}

    public static boolean of(Viewer viewer, History.Version version) {
        if (Entitled.toCorrect(viewer, version)) {
            return true;
        }
        boolean about = version.kind().subject() == Subject.WORKER
                && viewer.isSelf(new WorkerId(version.told().subject()));
        if (version.kind() == Kind.SYMPTOM_REPORT) {
            return about;
        }
        if (version.kind() == Kind.MEDICAL_OUTCOME) {
            return about || viewer.is(Role.OFFICER);
        }
        return about
                || viewer.is(Role.OFFICER)
                || version.toldBy().equals(viewer.account())
                || (isOfKit(version) && viewer.is(Role.STOREKEEPER));
    }

    /** A hold that the store reads on its sets although others lift it. */
    private static boolean isOfKit(History.Version version) {
        return version.told().fact() instanceof Hold hold
                && (hold.why() == Hold.Why.NOT_ACCEPTED
                        || hold.why() == Hold.Why.IMPOUNDED
                        || hold.why() == Hold.Why.RECALL);
    }

    /** Whether the reader may open every record of the kind; single ones may be open to more readers. */
    static boolean ofKind(Viewer viewer, Kind kind) {
        return kind == Kind.SYMPTOM_REPORT
                ? viewer.is(Role.HEALTH)
                : kind == Kind.MEDICAL_OUTCOME
                        ? viewer.isAny(Role.HEALTH, Role.OFFICER)
                        : viewer.is(Role.OFFICER)
                                || Entitled.recorders(kind).stream().anyMatch(viewer::is);
    }

    /** A note on symptoms is clinical text: whoever wrote it and the health role alone, not even the person whom it is about. */
    static boolean ofNote(Viewer viewer, History.Version version) {
        return version.kind() != Kind.SYMPTOM_REPORT
                || viewer.is(Role.HEALTH)
                || version.toldBy().equals(viewer.account());
    }

    static boolean ofReason(Viewer viewer, Kind kind) {
        return !kind.isMedical() || viewer.is(Role.HEALTH);
    }
}
