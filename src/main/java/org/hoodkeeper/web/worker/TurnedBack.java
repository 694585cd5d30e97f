package org.hoodkeeper.web.worker;

import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.kernel.Refused;

/** The worker may not go in. Carries the whole answer as the reader may see it. */
class TurnedBack extends Refused {

    private final transient Answer answer;

    TurnedBack(Answer answer) {
        super("enter.notCleared");
        this.answer = answer;
    }

    Answer answer() {
        return answer;
    }
}
