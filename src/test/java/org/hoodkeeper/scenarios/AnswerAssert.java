package org.hoodkeeper.scenarios;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.assertj.core.api.AbstractAssert;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.rules.RequirementKind;

/** Says of an answer what a storekeeper would say. */
final class AnswerAssert extends AbstractAssert<AnswerAssert, Answer> {

    private AnswerAssert(Answer answer) {
        super(answer, AnswerAssert.class);
    }

    static AnswerAssert assertThat(Answer answer) {
        return new AnswerAssert(answer);
    }

    AnswerAssert isCleared() {
        Assertions.assertThat(actual.verdict()).as(told()).isEqualTo(Verdict.CLEARED);
        return this;
    }

    AnswerAssert isClearedWithConditions() {
        Assertions.assertThat(actual.verdict()).as(told()).isEqualTo(Verdict.CLEARED_WITH_CONDITIONS);
        return this;
    }

    AnswerAssert isNotCleared() {
        Assertions.assertThat(actual.verdict()).as(told()).isEqualTo(Verdict.NOT_CLEARED);
        return this;
    }

    AnswerAssert because(RequirementKind kind, Why why) {
        Assertions.assertThat(actual.of(kind))
                .as(told())
                .anyMatch(reason -> reason.why() == why && reason.result().bars());
        return this;
    }

    AnswerAssert has(RequirementKind kind, Result result, Why why) {
        Assertions.assertThat(actual.of(kind))
                .as(told())
                .anyMatch(reason -> reason.why() == why && reason.result() == result);
        return this;
    }

    /** Nothing else stands in the way. */
    AnswerAssert onlyBecauseOf(RequirementKind... kinds) {
        Assertions.assertThat(actual.reasons().stream()
                        .filter(reason -> reason.result().bars())
                        .map(Reason::kind)
                        .distinct())
                .as(told())
                .containsExactlyInAnyOrder(kinds);
        return this;
    }

    AnswerAssert isDueSoon(RequirementKind kind, String lastDay) {
        Assertions.assertThat(actual.dueSoon())
                .as(told())
                .isEqualTo(new Answer.DueSoon(kind, LocalDate.parse(lastDay)));
        return this;
    }

    AnswerAssert since(RequirementKind kind, Instant begin) {
        for (int i = 0; i < actual.reasons().size(); i++) {
            if (actual.reasons().get(i).kind() == kind
                    && actual.reasons().get(i).result().bars()) {
                Assertions.assertThat(actual.since().get(i)).as(told()).isEqualTo(begin);
                return this;
            }
        }
        throw new AssertionError("nothing of " + kind + " stands in the way: " + told());
    }

    AnswerAssert isClearedUntil(Instant end, RequirementKind endedBy) {
        Assertions.assertThat(actual.window()).as(told()).isNotNull();
        Assertions.assertThat(actual.window().interval().until()).as(told()).isEqualTo(end);
        Assertions.assertThat(actual.window().endedBy()).as(told()).isEqualTo(endedBy);
        return this;
    }

    private String told() {
        List<String> lines = actual.reasons().stream()
                .map(reason -> reason.kind() + " " + reason.result() + " " + reason.why() + " " + reason.details()
                        + " until " + reason.goodUntil())
                .toList();
        return actual.verdict() + " " + actual.window() + "\n" + String.join("\n", lines);
    }
}
