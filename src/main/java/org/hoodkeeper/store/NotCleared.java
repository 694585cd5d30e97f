package org.hoodkeeper.store;

import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.kernel.Refused;

/** The person may not have this set for this task. Carries the whole answer as the reader may see it. */
public class NotCleared extends Refused {

    private final transient Answer answer;

    NotCleared(Answer answer) {
        super("issue.notCleared");
        this.answer = answer;
    }

    public Answer answer() {
        return answer;
    }
}
