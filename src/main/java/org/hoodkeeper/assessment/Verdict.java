package org.hoodkeeper.assessment;

/** The answer in a word. Worse ones come later. */
public enum Verdict {
    CLEARED,
    CLEARED_WITH_CONDITIONS,
    NOT_CLEARED;

    static Verdict of(Iterable<Reason> reasons) {
        Verdict verdict = CLEARED;
        for (Reason reason : reasons) {
            if (reason.result().bars()) {
                return NOT_CLEARED;
            }
            if (reason.result() == Result.MET_WITH_CONDITIONS) {
                verdict = CLEARED_WITH_CONDITIONS;
            }
        }
        return verdict;
    }

    public Verdict worse(Verdict other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
