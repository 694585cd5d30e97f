package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;

import java.util.concurrent.atomic.AtomicReference;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.reporting.Board;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.store.CountedStatements;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.annotation.Import;

/** How many statements a question and a board send: a number, however many people and records there are. */
@ScenarioTest
@Import(CountedStatements.class)
class StatementsTests {

    @Autowired
    Story.Door door;

    @Autowired
    CountedStatements statements;

    @Autowired
    SiteBoards boards;

    private Story site(int people) {
        Story story = door.ferrow()
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .on("2026-11-30T21:40");
        for (int i = 0; i < people; i++) {
            story.worker("W" + i).posted("W" + i, "T4").trained("W" + i, "H20", "2026-10-01T09:00");
        }
        return story;
    }

    private int asking(Story story, Verdict expected, String until) {
        AtomicReference<Answer> answer = new AtomicReference<>();
        int sent = statements.during(
                () -> answer.set(story.may("W0", "T4").withModel("H20", "M").from("2026-11-30T22:00", until)));
        assertThat(answer.get().verdict()).isEqualTo(expected);
        return sent;
    }

    /** Names, records. */
    @Test
    void aQuestionSendsTwoStatements() {
        Story story = site(1);
        asking(story, Verdict.CLEARED, "2026-12-01T02:00");
        assertThat(asking(story, Verdict.CLEARED, "2026-12-01T02:00")).isEqualTo(2);
    }

    /** What bars with every set of the only model that the person is trained on leaves nothing to look for. */
    @Test
    void aRefusalThatNoSetCanHelpSendsTwo() {
        Story story = site(1).decides("training.interval", "P1M", "2020-01-02").set("S-1", "H20", "M");
        asking(story, Verdict.NOT_CLEARED, "2026-12-01T02:00");
        assertThat(asking(story, Verdict.NOT_CLEARED, "2026-12-01T02:00")).isEqualTo(2);
    }

    /** And two more to look for another way: which sets are in store, and their records; where none is, only the first. */
    @Test
    void aRefusalSendsFour() {
        Story story = site(1).set("S-1", "H20", "M");
        refused(story, "S-1");
        assertThat(refused(story, "S-1")).isEqualTo(3);
        story.set("S-2", "H20", "M");
        assertThat(refused(story, "S-1")).isEqualTo(4);
    }

    /** More than four sets are read in two parts, and another task with the second: with token, roles and note they are eight. */
    @Test
    void theLongestRefusalSendsFive() {
        Story story = site(1).task("T5", "silica", "0.6")
                .posted("W0", "T5")
                .task("T6", "silica", "60")
                .posted("W0", "T6")
                .model("H40", POWERED_HOOD, "TH3", "170", false)
                .trained("W0", "H40", "2026-10-01T09:00")
                .set("S-1", "H20", "M")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .disinfected("S-1", "2026-11-30T20:00")
                .examined("S-1", "190", "FI-1", "2026-11-30T20:30");
        for (int i = 0; i < 6; i++) {
            story.set("X-" + i, "H40", "M");
        }
        refused(story, "X-0");
        AtomicReference<Answer> answer = new AtomicReference<>();
        int sent = statements.during(
                () -> answer.set(story.may("W0", "T6").with("S-1").from("2026-11-30T22:00", "2026-12-01T02:00")));
        assertThat(answer.get().alternatives())
                .extracting(Answer.Alternative::taskCode)
                .containsExactlyInAnyOrder("T4", "T5");
        assertThat(sent).isEqualTo(5);
    }

    private int refused(Story story, String set) {
        AtomicReference<Answer> answer = new AtomicReference<>();
        int sent = statements.during(
                () -> answer.set(story.may("W0", "T4").with(set).from("2026-11-30T22:00", "2026-12-01T02:00")));
        assertThat(answer.get().verdict()).isEqualTo(Verdict.NOT_CLEARED);
        return sent;
    }

    /** Names and news, besides two questions for the time; nobody is judged where there are no news. */
    @Test
    void aBoardWithoutNewsSendsTwoHoweverManyPeople() throws InterruptedException {
        for (int people : new int[] {1, 12}) {
            Story story = site(people);
            // what was told within some milliseconds before a look is news to the next one
            Thread.sleep(100);
            look(story);
            assertThat(statements.during(() -> look(story))).isEqualTo(2);
        }
    }

    @Test
    void aBoardOfAllSendsTheSameForOneAndForTwelve() {
        int one = first(site(1));
        assertThat(first(site(12))).isEqualTo(one);
    }

    private int first(Story story) {
        return statements.during(() -> look(story));
    }

    private void look(Story story) {
        Board board = SiteBinding.in(
                story.site().id(),
                () -> boards.of(story.officer(), Moment.of(null, false, story.instant("2026-11-30T21:40"))));
        assertThat(board.rows()).isNotEmpty();
    }
}
