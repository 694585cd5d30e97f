package org.hoodkeeper.assessment;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.rules.RequirementKind;
import org.junit.jupiter.api.Test;

/**
 * Which ways may still help somebody who is barred, written out for every requirement and, where they differ, for its reasons. A
 * way that is left out is never looked at, so that a word too few here sends people home; one too many only costs a look.
 * Follows from what each requirement is judged of; no source. Random histories meet only some of these reasons.
 */
class OtherWaysTest {

    private enum Way {
        /** Another set of any model at the same task. */
        ANY_SET,
        /** Another set of the same model at the same task. */
        SAME_MODEL,
        /** The same set at another task. */
        OTHER_TASK
    }

    private static final String ANY_REASON = "*";

    /** A star stands for every reason that has no line of its own. */
    private static final String TABLE = """
            # Of the person: no set changes it. A posting is to one task, and another task may have one.
            POSTING            *                  OTHER_TASK
            PERSON_HOLD        *                  -
            SYMPTOM_REVIEW     *                  -

            # Another model may be one on which the person is trained; no other set of this one is.
            TRAINING           *                  ANY_SET

            # An outcome may be asked for by the kind of device, and may allow another kind: any set may help. Another set of the
            # same model would not, but is looked at: nothing is lost, and the other models are looked at anyway.
            MEDICAL            *                  ANY_SET SAME_MODEL OTHER_TASK
            MEDICAL            MISSING            ANY_SET SAME_MODEL
            MEDICAL            LAPSED             ANY_SET SAME_MODEL
            MEDICAL            INTERFACE_EXCLUDED ANY_SET SAME_MODEL
            MEDICAL            UNFIT              -
            MEDICAL            TEMPORARILY_UNFIT  -
            # What was worn in this shift is over, with whatever set and wherever.
            MEDICAL            WEAR_LIMIT         -
            # Heat is measured at the task and work is as hard as the task: elsewhere it may be cooler and lighter.
            MEDICAL            HEAT_LIMIT         OTHER_TASK
            MEDICAL            WORK_RATE_LIMIT    OTHER_TASK

            # A test is of model, size and seal: another set of the model may have the size that was tested.
            FIT_TEST           *                  ANY_SET SAME_MODEL
            # Only a set that seals on skin asks, and a tick of the wearer's own check stands with one set.
            HAIR_AT_SEAL       *                  ANY_SET SAME_MODEL OTHER_TASK
            # The site limits each kind of device by itself: a mask may be used up and a hood not.
            WEAR_TIME          *                  ANY_SET

            # Of the task alone.
            BASIS              *                  OTHER_TASK
            TASK_TRIGGER       *                  OTHER_TASK

            # Of task and model: its class, its factor, its filters.
            ATMOSPHERE         *                  ANY_SET OTHER_TASK
            ADEQUACY           *                  ANY_SET OTHER_TASK
            # A fit test without figures is of one size and seal: another set of the model may have those that were measured.
            ADEQUACY           FIT_TEST_SHORT     ANY_SET SAME_MODEL OTHER_TASK
            FILTER             *                  ANY_SET OTHER_TASK
            INTERFACE          NOT_FOR_TASK       ANY_SET OTHER_TASK
            # This one set becomes one of another model, or nothing is on record of its model: no word on other sets.
            INTERFACE          *                  ANY_SET SAME_MODEL OTHER_TASK

            # Of the set: it is held, worn out or unclean wherever it goes.
            KIT_HOLD           *                  ANY_SET SAME_MODEL
            PARTS              *                  ANY_SET SAME_MODEL
            PART_LIFE          *                  ANY_SET SAME_MODEL
            FILTER_LIFE        *                  ANY_SET SAME_MODEL
            EXAMINATION        *                  ANY_SET SAME_MODEL
            FLOW               *                  ANY_SET SAME_MODEL
            CLEAN              *                  ANY_SET SAME_MODEL
            # Of two sets of one model one may have the better battery, and the one may be charged.
            BATTERY            *                  ANY_SET SAME_MODEL
            # Another set of the model may hang on another supply.
            AIR_SUPPLY         *                  ANY_SET SAME_MODEL
            AIR_PURIFIER       *                  ANY_SET SAME_MODEL
            SUPPLY_HOLD        *                  ANY_SET SAME_MODEL

            # Done at the start, with the set that is taken: closes no way.
            ISSUED             *                  ANY_SET SAME_MODEL OTHER_TASK
            PRE_USE_CHECK      *                  ANY_SET SAME_MODEL OTHER_TASK
            PLACEMENT_CHECK    *                  ANY_SET SAME_MODEL OTHER_TASK
            SEAL_CHECK         *                  ANY_SET SAME_MODEL OTHER_TASK
            """;

    @Test
    void eachReasonLeavesTheWaysThatAreWrittenHere() {
        Map<String, Set<Way>> expected = table();
        Map<String, Set<Way>> wrong = new LinkedHashMap<>();
        Set<String> met = new HashSet<>();
        for (RequirementKind kind : RequirementKind.values()) {
            for (Why why : Why.values()) {
                String line = expected.containsKey(kind + " " + why) ? kind + " " + why : kind + " " + ANY_REASON;
                met.add(line);
                Set<Way> left = left(List.of(Reason.of(kind, Result.NOT_MET, why)));
                if (!left.equals(expected.get(line))) {
                    wrong.put(kind + " " + why, left);
                }
            }
        }
        assertThat(wrong).as("ways left that are not written in the table").isEmpty();
        assertThat(met).as("lines of requirements and reasons that there are").isEqualTo(expected.keySet());
    }

    @Test
    void whatIsUnknownClosesTheSameWaysAsWhatIsNotMet() {
        for (RequirementKind kind : RequirementKind.values()) {
            for (Why why : Why.values()) {
                assertThat(left(List.of(Reason.of(kind, Result.UNKNOWN, why))))
                        .as("%s %s", kind, why)
                        .isEqualTo(left(List.of(Reason.of(kind, Result.NOT_MET, why))));
            }
        }
    }

    /** A limit that is on record and not reached is no bar. */
    @Test
    void whatDoesNotBarClosesNoWay() {
        for (Result result : EnumSet.complementOf(EnumSet.of(Result.NOT_MET, Result.UNKNOWN))) {
            for (RequirementKind kind : RequirementKind.values()) {
                for (Why why : Why.values()) {
                    assertThat(left(List.of(Reason.of(kind, result, why))))
                            .as("%s %s %s", kind, result, why)
                            .containsExactly(Way.ANY_SET, Way.SAME_MODEL, Way.OTHER_TASK);
                }
            }
        }
    }

    /** Held and no longer trained: another set of a model that is known to the person, nothing else. */
    @Test
    void ofSeveralReasonsEachClosesItsOwn() {
        assertThat(left(List.of(
                        Reason.of(RequirementKind.TRAINING, Result.NOT_MET, Why.LAPSED),
                        Reason.of(RequirementKind.KIT_HOLD, Result.NOT_MET, Why.HELD))))
                .containsExactly(Way.ANY_SET);
        assertThat(left(List.of(
                        Reason.of(RequirementKind.BASIS, Result.NOT_MET, Why.LAPSED),
                        Reason.of(RequirementKind.FLOW, Result.NOT_MET, Why.FAILED))))
                .isEmpty();
    }

    private static Set<Way> left(List<Reason> reasons) {
        Set<Way> left = EnumSet.noneOf(Way.class);
        if (OtherWays.anotherSetMayHelp(reasons)) {
            left.add(Way.ANY_SET);
        }
        if (OtherWays.sameModelMayHelp(reasons)) {
            left.add(Way.SAME_MODEL);
        }
        if (OtherWays.anotherTaskMayHelp(reasons)) {
            left.add(Way.OTHER_TASK);
        }
        return left;
    }

    private static Map<String, Set<Way>> table() {
        Map<String, Set<Way>> table = new LinkedHashMap<>();
        for (String line : TABLE.lines()
                .filter(one -> !one.isBlank() && !one.startsWith("#"))
                .toList()) {
            List<String> words = new ArrayList<>(List.of(line.split(" +")));
            Set<Way> ways = EnumSet.noneOf(Way.class);
            words.subList(2, words.size()).stream()
                    .filter(word -> !word.equals("-"))
                    .map(Way::valueOf)
                    .forEach(ways::add);
            assertThat(table.put(words.get(0) + " " + words.get(1), ways))
                    .as("second line of %s", line)
                    .isNull();
        }
        return table;
    }
}
