package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;

import java.time.Instant;
import java.util.List;
import java.util.function.Consumer;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.ledger.Draft;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

/** Another set as the way to work today: what stands on the shelf in front of it hides no ready one. */
@ScenarioTest
class OtherSetsTests {

    @Autowired
    Story.Door door;

    @Autowired
    JdbcTemplate jdbc;

    private Story ferrow;

    @BeforeEach
    void lay() {
        ferrow = door.ferrow()
                .worker("Kay")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .task("T5", "silica", "0.3")
                .task("T9", "silica", "60")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .set("S-201", "H20", "M")
                .set("S-207", "H20", "M")
                .posted("Kay", "T4")
                .on("2026-08-03T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Kay", "H20", "2026-08-03T09:00");
    }

    private Answer refused() {
        ferrow.on("2026-11-20T12:00")
                .disinfected("S-207", "2026-11-20T09:00")
                .examined("S-207", "190", "FI-1", "2026-11-20T10:00");
        return asked("2026-11-20T12:30");
    }

    private Answer asked(String now) {
        return ferrow.on(now).may("Kay", "T4").with("S-201").from("2026-11-20T13:00", "2026-11-20T15:00");
    }

    private void others(int count, String begin, Consumer<String> each) {
        for (int i = 10; i < 10 + count; i++) {
            ferrow.set(begin + i, "H20", "M");
            each.accept(begin + i);
        }
    }

    private static List<String> labels(Answer answer) {
        return answer.alternatives().stream().map(Answer.Alternative::label).toList();
    }

    private RecordId hold(Hold.Why why, String at) {
        return ferrow.record(Draft.of(new Hold(Hold.Step.PLACED, why, null), ferrow.id("S-207"), at(at)));
    }

    private Instant at(String local) {
        return ferrow.instant(local);
    }

    private SetData data(String size, boolean emergency, String store) {
        return new SetData((ModelId) ferrow.id("H20"), size, "R1", null, emergency, store, null);
    }

    /** What the shelf says that a set may be. */
    private List<String> offered(String label) {
        return ferrow.here(d -> d.transaction()
                .execute(status -> jdbc.queryForList(
                        "select unnest(offers) from kit_shelf where label = ?", String.class, label)));
    }

    @Test
    void disposedSetsInFrontHideNoReadyOne() {
        others(
                14,
                "A-",
                label -> ferrow.tell(
                        new Hold(Hold.Step.PLACED, Hold.Why.DISPOSED, "scrapped"), label, "2026-08-03T10:00"));
        assertThat(labels(refused())).containsExactly("S-207");
        assertThat(offered("A-10")).isEmpty();
    }

    @Test
    void setsThatWentToAnotherStoreHideNoReadyOne() {
        others(
                60,
                "A-",
                label -> ferrow.tell(Draft.of(data("M", false, "depot"), ferrow.id(label), at("2026-08-03T10:00"))));
        assertThat(labels(refused())).containsExactly("S-207");
    }

    @Test
    void aHoldTakesASetFromTheShelfAndItsReleaseOrWithdrawalPutsItBack() {
        RecordId recall = hold(Hold.Why.RECALL, "2026-08-03T10:00");
        assertThat(offered("S-207")).isEmpty();
        assertThat(labels(refused())).isEmpty();
        ferrow.tell(Draft.of(
                        new Hold(Hold.Step.RELEASED, Hold.Why.RECALL, null), ferrow.id("S-207"), at("2026-11-20T11:00"))
                .item(recall));
        assertThat(offered("S-207")).hasSize(2);
        RecordId quarantine = hold(Hold.Why.QUARANTINE, "2026-11-20T11:30");
        assertThat(offered("S-207")).isEmpty();
        ferrow.here(d -> d.lookback().corrections().withdraw(ferrow.officer(), quarantine, "another set was meant"));
        assertThat(offered("S-207")).hasSize(2);
        assertThat(labels(asked("2026-11-20T12:45"))).containsExactly("S-207");
    }

    /** The hold was put on the wrong set; its correction turns to the right one. */
    @Test
    void aHoldThatIsCorrectedToAnotherSetFreesTheFirst() {
        ferrow.set("S-208", "H20", "M");
        RecordId wrong = hold(Hold.Why.DEFECT, "2026-08-03T10:00");
        Draft right =
                Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DEFECT, null), ferrow.id("S-208"), at("2026-08-03T10:00"));
        ferrow.here(d -> d.lookback().corrections().correct(ferrow.officer(), wrong, right, "the other set"));
        assertThat(offered("S-207")).hasSize(2);
        assertThat(offered("S-208")).isEmpty();
    }

    @Test
    void anEmergencySetIsNobodysWayToAnotherTask() {
        ferrow.posted("Kay", "T5")
                .posted("Kay", "T9")
                .on("2026-08-04T12:00")
                .tell(Draft.of(data("M", true, "main"), ferrow.id("S-207"), at("2026-08-04T10:00")))
                .on("2026-11-20T12:00")
                .disinfected("S-207", "2026-11-20T09:00")
                .examined("S-207", "190", "FI-1", "2026-11-20T10:00");
        Answer answer = ferrow.may("Kay", "T9").with("S-207").from("2026-11-20T13:00", "2026-11-20T15:00");
        assertThat(answer.alternatives())
                .extracting(Answer.Alternative::taskCode)
                .isEmpty();
    }

    @Test
    void aSetInAnothersHandsIsNoWayToAnotherTask() {
        ferrow.worker("Lee")
                .posted("Kay", "T5")
                .posted("Kay", "T9")
                .on("2026-11-20T12:00")
                .disinfected("S-207", "2026-11-20T09:00")
                .examined("S-207", "190", "FI-1", "2026-11-20T10:00")
                .issued("S-207", "Lee", "2026-11-20T11:00");
        Answer answer = ferrow.may("Kay", "T9").with("S-207").from("2026-11-20T13:00", "2026-11-20T15:00");
        assertThat(answer.alternatives()).isEmpty();
    }

    @Test
    void correctedFromLToMIsFound() {
        ferrow.set("A-10", "H20", "L");
        ferrow.on("2026-11-20T12:00")
                .tell(Draft.of(data("M", false, "main"), ferrow.id("A-10"), at("2026-08-03T10:00")))
                .disinfected("A-10", "2026-11-20T09:00")
                .examined("A-10", "190", "FI-1", "2026-11-20T10:00");
        Answer answer = ferrow.may("Kay", "T4").with("S-201").from("2026-11-20T13:00", "2026-11-20T15:00");
        assertThat(answer.alternatives()).extracting(Answer.Alternative::label).containsExactly("A-10");
    }

    @Test
    void toldInHandAndReturnedIsFound() {
        ferrow.worker("Lee").set("A-10", "H20", "L");
        ferrow.on("2026-11-20T06:00").issued("A-10", "Lee", "2026-11-20T05:00");
        ferrow.on("2026-11-20T07:00")
                .tell(Draft.of(data("M", false, "main"), ferrow.id("A-10"), at("2026-11-20T06:00")))
                .claims("A-10", Custody.Claim.RETURNED, false, "2026-11-20T07:00");
        ferrow.on("2026-11-20T12:00")
                .disinfected("A-10", "2026-11-20T09:00")
                .examined("A-10", "190", "FI-1", "2026-11-20T10:00");
        Answer answer = ferrow.may("Kay", "T4").with("S-201").from("2026-11-20T13:00", "2026-11-20T15:00");
        assertThat(answer.alternatives()).extracting(Answer.Alternative::label).containsExactly("A-10");
    }
}
