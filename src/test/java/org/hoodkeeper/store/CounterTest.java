package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;

import java.time.Duration;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.RequirementKind;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.JdbcTemplate;

/** Stories at the counter, told through the services on the real database. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class})
class CounterTest {

    @Autowired
    StoreStory story;

    @Autowired
    Counter counter;

    @Autowired
    JdbcTemplate jdbc;

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private Answer refusal(String label, String worker) {
        return catchThrowableOfType(NotCleared.class, () -> story.issue(label, worker))
                .answer();
    }

    private static List<Reason> barring(Answer answer) {
        return answer.reasons().stream()
                .filter(reason -> reason.result().bars())
                .toList();
    }

    private void sharedKit() {
        story.begin("2026-11-20T15:00")
                .worker("Kay", "H20")
                .worker("Lee", "H20")
                .set("S-201", "H20", "2026-11-02T09:00")
                .set("S-207", "H20", "2026-11-02T09:00")
                .disinfected("S-201", "2026-11-20T12:00")
                .upToDate("S-201", "2026-11-20T13:00")
                .upToDate("S-207", "2026-11-20T13:30")
                .on("2026-11-25T06:00");
        story.issue("S-201", "Kay");
        story.on("2026-11-25T17:52").wore("Kay", "S-201", "2026-11-25T13:00", "2026-11-25T17:50");
        story.takeBack("S-201", true, "2026-11-25T17:52");
        story.on("2026-11-25T18:05").wiped("S-201", "2026-11-25T17:55");
    }

    @Test
    void aWipeNeverCoversAChangeOfWearer() {
        sharedKit();
        Answer no = refusal("S-201", "Lee");
        assertThat(barring(no)).extracting(Reason::kind).containsExactly(RequirementKind.CLEAN);
        assertThat(barring(no)).extracting(Reason::why).containsExactly(Why.WIPED_ONLY);
        assertThat(no.alternatives()).extracting(Answer.Alternative::set).containsExactly(story.id("S-207"));
        assertThat(story.shelf("S-201", "2026-11-25T18:05").holder()).isNull();
    }

    @Test
    void theLastWearerMayHaveItAgainWithoutADisinfection() {
        sharedKit();
        story.on("2026-11-26T06:00");
        ShelfSet shelf = story.shelf("S-201", "2026-11-26T06:00");
        assertThat(shelf.state()).isEqualTo(ShelfSet.State.LAST_WEARER);
        assertThat(shelf.readiness().lastWearer())
                .isEqualTo(story.in(() -> story.people().byNumber(story.site().id(), "Kay"))
                        .id());
        story.issue("S-201", "Kay");
        assertThat(story.shelf("S-201", "2026-11-26T06:01").state()).isEqualTo(ShelfSet.State.OUT);
    }

    @Test
    void aDisinfectionWithItsFlowProvenAfterwardsOpensItToEverybody() {
        sharedKit();
        story.on("2026-11-25T20:00").disinfected("S-201", "2026-11-25T18:20");
        assertThat(story.shelf("S-201", "2026-11-25T20:00").readiness().barring())
                .extracting(Reason::kind, Reason::why)
                .containsExactly(tuple(RequirementKind.FLOW, Why.UNDONE));
        story.flowChecked("S-201", "176", "2026-11-25T19:50");
        assertThat(story.shelf("S-201", "2026-11-25T20:00").state()).isEqualTo(ShelfSet.State.READY);
        story.issue("S-201", "Lee");
    }

    @Test
    void kitIsSwappedMidShiftForASetThePersonIsTrainedOn() {
        story.begin("2026-11-25T05:00")
                .worker("Fay", "H20")
                .set("S-114", "H20", "2026-11-02T09:00")
                .set("S-131", "H40", "2026-11-02T09:00")
                .set("S-098", "H20", "2026-11-02T09:00")
                .upToDate("S-114", "2026-11-20T13:00")
                .upToDate("S-131", "2026-11-20T13:00")
                .upToDate("S-098", "2026-11-20T13:00")
                .on("2026-11-25T06:12");
        story.issue("S-114", "Fay");
        story.on("2026-11-25T10:25").wore("Fay", "S-114", "2026-11-25T06:20", "2026-11-25T10:20");
        story.held("S-114", Hold.Why.OTHER, "2026-11-25T10:24");

        story.on("2026-11-25T10:40");
        Answer no = refusal("S-131", "Fay");
        assertThat(barring(no)).extracting(Reason::kind).containsExactly(RequirementKind.TRAINING);
        assertThat(barring(no)).extracting(Reason::why).containsExactly(Why.OTHER_VARIANT);
        assertThat(no.alternatives()).extracting(Answer.Alternative::set).contains(story.id("S-098"));

        story.on("2026-11-25T10:41");
        story.issue("S-098", "Fay");
        assertThat(story.shelf("S-098", "2026-11-25T10:42").since())
                .isBetween(story.instant("2026-11-25T10:41"), story.instant("2026-11-25T10:42"));
        // held, and still in her hands: nobody has said that it came back
        ShelfSet held = story.shelf("S-114", "2026-11-25T10:42");
        assertThat(held.state()).isEqualTo(ShelfSet.State.OUT);
        assertThat(held.isHeld(Hold.Why.OTHER)).isTrue();
        assertThat(SetStep.next(held)).first().isEqualTo(SetStep.RETURN);
    }

    @Test
    void aFoundSetIsDisinfectedAndExaminedFirst() {
        story.begin("2026-11-20T15:00")
                .worker("Kay", "H20")
                .set("S-150", "H20", "2026-11-02T09:00")
                .upToDate("S-150", "2026-11-20T13:00")
                .on("2026-11-21T08:05");
        story.in(() -> counter.missing(story.author(), story.id("S-150"), null, story.instant("2026-11-21T08:00")));
        assertThat(story.shelf("S-150", "2026-11-22T08:00").state()).isEqualTo(ShelfSet.State.MISSING);
        story.on("2026-11-24T08:05");
        story.in(() -> counter.found(
                story.author(), story.id("S-150"), "in the kiln hall", story.instant("2026-11-24T08:00")));

        ShelfSet found = story.shelf("S-150", "2026-11-24T08:05");
        assertThat(found.state()).isEqualTo(ShelfSet.State.BLOCKED);
        assertThat(found.readiness().barring())
                .extracting(Reason::kind)
                .containsExactly(RequirementKind.EXAMINATION, RequirementKind.FLOW, RequirementKind.CLEAN);
        assertThat(SetStep.next(found)).containsExactly(SetStep.EXAMINE, SetStep.FLOW_CHECK, SetStep.CLEAN);
        assertThat(barring(refusal("S-150", "Kay"))).extracting(Reason::kind).contains(RequirementKind.CLEAN);

        story.on("2026-11-24T12:00").disinfected("S-150", "2026-11-24T09:00").upToDate("S-150", "2026-11-24T11:00");
        assertThat(story.shelf("S-150", "2026-11-24T12:00").state()).isEqualTo(ShelfSet.State.READY);
        story.issue("S-150", "Kay");
    }

    @Test
    void nobodyGetsWhatSomebodyElseHas() {
        sharedKit();
        story.on("2026-11-25T18:10");
        story.issue("S-207", "Lee");
        assertThatThrownBy(() -> story.issue("S-207", "Lee"))
                .isInstanceOf(Refused.class)
                .extracting(refused -> ((Refused) refused).code())
                .isEqualTo("custody.issued");
    }

    /** Two tablets at one counter: the set is locked, so one of them hears that it is gone. */
    @Test
    void ofTwoAtTheSameMomentOneGetsTheSet() throws Exception {
        sharedKit();
        story.on("2026-11-25T18:10");
        CyclicBarrier together = new CyclicBarrier(2);
        ExecutorService tablets = Executors.newFixedThreadPool(2);
        try {
            List<Future<String>> answers = Stream.of("Kay", "Lee")
                    .map(worker -> tablets.submit(() -> {
                        together.await(10, TimeUnit.SECONDS);
                        try {
                            story.issue("S-207", worker);
                            return "issued";
                        } catch (Refused refused) {
                            return refused.code();
                        }
                    }))
                    .toList();
            assertThat(List.of(answers.get(0).get(), answers.get(1).get()))
                    .containsExactlyInAnyOrder("issued", "custody.issued");
        } finally {
            tablets.shutdownNow();
        }
    }

    @Test
    void theAnswerThatWasActedOnIsKept() {
        sharedKit();
        story.on("2026-11-25T18:10");
        refusal("S-201", "Lee");
        story.issue("S-207", "Lee");
        List<String> kept = story.in(() -> jdbc.queryForList(
                "select purpose || ' ' || verdict from stored_answer where site_id = ? and set_id = ?",
                String.class,
                story.site().id().value(),
                story.id("S-207").value()));
        assertThat(kept).containsExactly("issue CLEARED");
        List<String> ofTheRefused = story.in(() -> jdbc.queryForList(
                "select verdict from stored_answer where site_id = ? and set_id = ? and asked_at > ?::timestamptz",
                String.class,
                story.site().id().value(),
                story.id("S-201").value(),
                "2026-11-25T18:00:00Z"));
        assertThat(ofTheRefused).isEmpty();
    }

    @Test
    void aPlanAtTheCounterHasALength() {
        sharedKit();
        assertThatThrownBy(() -> story.in(() -> counter.look(
                        story.viewer(), new Counter.Plan(story.id("S-207"), "Lee", "T1", Duration.ofHours(25)))))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("issue.hours.range");
    }
}
