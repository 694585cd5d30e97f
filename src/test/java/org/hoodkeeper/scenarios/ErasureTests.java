package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.hoodkeeper.facts.InterfaceType.FULL_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;

import java.io.ByteArrayInputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.locks.LockSupport;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.database.Dump;
import org.hoodkeeper.database.TestDatabase;
import org.hoodkeeper.exchange.FileKind;
import org.hoodkeeper.exchange.ImportJob;
import org.hoodkeeper.exchange.Imports;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.facts.Erasure;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Chain;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.OnceOnly;
import org.hoodkeeper.ledger.Sealer;
import org.hoodkeeper.oversight.Erasures;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.StoredAnswers;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

/** Records that nothing asks for any longer are gone for good, and the proof of the rest stays whole. */
@ScenarioTest
class ErasureTests {

    private static final List<Kind> ERASED = List.of(
            Kind.TRAINING,
            Kind.MEDICAL_OUTCOME,
            Kind.FIT_TEST,
            Kind.SYMPTOM_REPORT,
            Kind.EXPOSURE_RESULT,
            Kind.EXAMINATION,
            Kind.PRE_USE_CHECK,
            Kind.PART_CHANGE,
            Kind.DEFECT,
            Kind.AIR_TEST);

    @Autowired
    Story.Door door;

    @Autowired
    Erasures erasures;

    @Autowired
    Chain chain;

    @Autowired
    Sealer sealer;

    @Autowired
    OnceOnly onceOnly;

    @Autowired
    Imports imports;

    @Autowired
    KnowledgeClock clock;

    @Autowired
    JdbcTemplate jdbc;

    private final String secret = "Secret" + UUID.randomUUID().toString().replace("-", "");

    private Story ferrow() {
        return door.ferrow()
                .worker("W-61")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH3", "170", false)
                .model("M20", FULL_MASK, "FM-P3", null, false)
                .set("S-114", "H20", "M")
                .supply("AIR-1");
    }

    private static Examination examination(String examiner) {
        return new Examination(Outcome.PASS, null, null, examiner, null);
    }

    private static MedicalOutcome fit(String organisation) {
        return new MedicalOutcome(MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, organisation);
    }

    private static RecordId tells(Story story, Fact fact, String about, String at) {
        return story.on(at).record(Draft.of(fact, story.id(about), story.instant(at)));
    }

    private static Training training(String trainer) {
        return new Training(Outcome.PASS, true, "1", false, trainer);
    }

    private List<RecordId> erase(Story story, RecordId... records) {
        return erase(
                story,
                new Viewer(story.site().id(), story.officer().account(), Set.of(Role.OFFICER, Role.HEALTH), null, null),
                records);
    }

    private List<RecordId> erase(Story story, Viewer viewer, RecordId... records) {
        return erase(story, viewer, now(story), records);
    }

    private List<RecordId> erase(Story story, Viewer viewer, Instant now, RecordId... records) {
        return story.here(all -> erasures.erase(viewer, List.of(records), now));
    }

    private Instant now(Story story) {
        return story.here(all -> clock.now());
    }

    private List<Erasures.Due> due(Story story, Kind kind, Instant now) {
        return story.here(all -> erasures.due(story.site().id(), kind, null, now))
                .due();
    }

    private void seal(Story story) {
        while (story.here(all -> sealer.seal(story.site().id())) > 0) {
            // one portion after the other
        }
    }

    private Chain.Checked check(Story story) {
        return story.here(all -> chain.check(story.site().id()));
    }

    private History.Version find(Story story, RecordId record) {
        return story.here(
                all -> all.lookback().history().find(story.site().id(), record, Instant.parse("2999-01-01T00:00:00Z")));
    }

    private static void refused(String code, org.assertj.core.api.ThrowableAssert.ThrowingCallable erasing) {
        assertThatThrownBy(erasing)
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo(code));
    }

    /** COSHH 2002 regulation 9(4): 5 years from 1 October 2026 are over after 1 October 2031, in the zone of the site. */
    @Test
    void notOneSecondBeforeTheEndOfTheLastDay() {
        Story ferrow = ferrow();
        RecordId examined = tells(ferrow, examination("E. Examiner"), "S-114", "2026-10-01T10:00");
        tells(ferrow, examination("E. Examiner"), "S-114", "2031-09-01T10:00");
        ferrow.on("2031-10-01T23:59:59");
        Instant lastSecond = ferrow.instant("2031-10-01T23:59:59");
        refused("erasure.kept", () -> erase(ferrow, ferrow.officer(), lastSecond, examined));
        assertThat(due(ferrow, Kind.EXAMINATION, lastSecond)).isEmpty();
        Instant over = ferrow.instant("2031-10-02T00:00");
        ferrow.on("2031-10-02T00:00");
        assertThat(due(ferrow, Kind.EXAMINATION, over))
                .extracting(Erasures.Due::record)
                .containsExactly(examined);
        RecordId told = erase(ferrow, ferrow.officer(), over, examined).get(0);
        assertThat(find(ferrow, examined)).isNull();
        Erasure erasure = (Erasure) find(ferrow, told).told().fact();
        assertThat(erasure.erased()).isEqualTo(Kind.EXAMINATION);
        assertThat(erasure.rule()).isEqualTo("uk.keep.examination");
        assertThat(erasure.records()).isEqualTo(1);
        assertThat(erasure.lastDay()).isEqualTo("2031-10-01");
        refused("erasure.twice", () -> erase(ferrow, examined));
    }

    /** A file brought 130 in with one time: whoever looks on sees each of them once, also when what was seen is erased meanwhile. */
    @Test
    void whatWasTrueAtOneInstantIsLookedThroughToItsEnd() {
        Story ferrow = ferrow();
        for (int i = 0; i < 130; i++) {
            tells(ferrow, examination("E. Examiner"), "S-114", "2026-10-01T10:00");
        }
        tells(ferrow, examination("E. Examiner"), "S-114", "2039-12-01T10:00");
        ferrow.on("2040-01-01T12:00");
        Erasures.Looked first = look(ferrow, null);
        assertThat(first.due()).hasSize(100);
        erase(ferrow, first.due().stream().map(Erasures.Due::record).toArray(RecordId[]::new));
        Erasures.Place further = Erasures.Place.of(
                java.util.Objects.requireNonNull(first.further()).text());
        assertThat(further).isEqualTo(first.further());
        Erasures.Looked second = look(ferrow, further);
        assertThat(second.due()).hasSize(30).doesNotContainAnyElementsOf(first.due());
        assertThat(second.further()).isNull();
        assertThat(Erasures.Place.of("2040-01-01T12:00:00Z")).isNull();
    }

    private Erasures.Looked look(Story story, Erasures.@org.jspecify.annotations.Nullable Place after) {
        return story.here(all -> erasures.due(story.site().id(), Kind.EXAMINATION, after, now(story)));
    }

    /** Both lie before their commit at once; the first stands, the second is told, and nothing is half done. */
    @Test
    void whoComesSecondOfCorrectingAndErasingIsRefused() throws Exception {
        Story ferrow = ferrow();
        RecordId examined = tells(ferrow, examination("E. Examiner"), "S-114", "2026-10-01T10:00");
        RecordId other = tells(ferrow, examination("E. Examiner"), "S-114", "2026-10-02T10:00");
        tells(ferrow, examination("E. Examiner"), "S-114", "2039-12-01T10:00");
        ferrow.on("2040-01-01T12:00");
        Instant now = now(ferrow);
        second(ferrow, "ledger.erased", () -> erase(ferrow, examined), () -> corrects(ferrow, examined));
        assertThat(find(ferrow, examined)).isNull();
        second(
                ferrow,
                "erasure.corrected",
                () -> corrects(ferrow, other),
                () -> erase(ferrow, ferrow.officer(), now, other));
        assertThat(find(ferrow, other).replacedBy()).isNotNull();
    }

    private RecordId corrects(Story story, RecordId record) {
        return story.record(Draft.of(examination("F. Examiner"), story.id("S-114"), story.instant("2026-10-01T11:00"))
                .correcting(record, "somebody else"));
    }

    /** Runs the second while the first has not committed yet. */
    private void second(Story story, String code, Runnable first, Runnable second) throws Exception {
        CountDownLatch done = new CountDownLatch(1);
        CompletableFuture<Void> late = CompletableFuture.runAsync(() -> {
            try {
                done.await();
            } catch (InterruptedException stopped) {
                throw new IllegalStateException(stopped);
            }
            second.run();
        });
        // the first's own transaction joins this one, which stays open until the second waits for it
        story.here(all -> all.transaction().execute(status -> {
            first.run();
            done.countDown();
            waitForALock();
            return true;
        }));
        assertThatThrownBy(late::join)
                .cause()
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo(code));
    }

    private void waitForALock() {
        for (int i = 0; i < 200; i++) {
            Integer waiting = jdbc.queryForObject(
                    "select count(*) from pg_locks where not granted and pid <> pg_backend_pid()", Integer.class);
            if (waiting != null && waiting > 0) {
                return;
            }
            LockSupport.parkNanos(50_000_000);
        }
        throw new AssertionError("nobody came to wait");
    }

    @Test
    void notWhileHeldNorInUseNorByAnybodyElse() {
        Story ferrow = ferrow();
        RecordId examined = tells(ferrow, examination("E. Examiner"), "S-114", "2026-10-01T10:00");
        ferrow.on("2040-01-01T12:00");
        refused("erasure.inUse", () -> erase(ferrow, examined));
        tells(ferrow, examination("E. Examiner"), "S-114", "2040-01-02T10:00");
        RecordId hold = tells(ferrow, new LegalHold(LegalHold.Step.PLACED, "a claim"), "S-114", "2040-01-03T10:00");
        refused("erasure.held", () -> erase(ferrow, examined));
        ferrow.on("2040-01-04T10:00")
                .tell(new Draft(
                        new LegalHold(LegalHold.Step.RELEASED, "settled"),
                        ferrow.id("S-114").value(),
                        hold.value(),
                        null,
                        ferrow.instant("2040-01-04T09:00"),
                        null,
                        null,
                        null,
                        null));
        RecordId report = tells(
                ferrow, new SymptomReport(SymptomReport.Step.REPORTED, "tight chest"), "W-61", "2026-10-02T10:00");
        ferrow.on("2090-01-04T12:00");
        refused("erasure.notEntitled", () -> erase(ferrow, ferrow.officer(), report));
        for (Role other : Role.values()) {
            if (other != Role.OFFICER) {
                refused("erasure.notEntitled", () -> erase(ferrow, ferrow.viewer(other), examined));
            }
        }
        refused("erasure.records.missing", () -> erase(ferrow));
        refused("erasure.unknown", () -> erase(ferrow, hold));
        assertThatThrownBy(() -> erase(ferrow, examined, new RecordId(UUID.randomUUID())))
                .isInstanceOf(NotFound.class);
        assertThat(find(ferrow, examined)).as("all or none").isNotNull();
        assertThat(erase(ferrow, examined)).hasSize(1);
    }

    /** The service's own role can neither delete nor call the function without an entry that tells of it, nor for another site. */
    @Test
    void theServiceItselfCannotDelete() throws SQLException {
        Story ferrow = ferrow();
        RecordId examined = tells(ferrow, examination("E. Examiner"), "S-114", "2026-10-01T10:00");
        String site = ferrow.site().id().toString();
        for (String sql : List.of(
                "delete from ledger_record where id = '" + examined + "'",
                "delete from ledger_private where record_id = '" + examined + "'",
                "insert into ledger_erased select site_id, id, entry_id, hash, id from ledger_record",
                "truncate ledger_record cascade",
                "set role hoodkeeper_eraser",
                "alter function ledger_erase(uuid, uuid, uuid[]) owner to hoodkeeper_app",
                "select ledger_erase('" + site + "', '" + examined + "', array['" + examined + "']::uuid[])",
                "select ledger_erase('" + UUID.randomUUID() + "', '" + examined + "', array['" + examined
                        + "']::uuid[])")) {
            try (Connection app = TestDatabase.asApp();
                    Statement statement = app.createStatement()) {
                statement.execute("select set_config('hoodkeeper.site', '" + site + "', false)");
                assertThatThrownBy(() -> statement.execute(sql))
                        .as(sql)
                        .isInstanceOfSatisfying(
                                SQLException.class,
                                refused -> assertThat(refused.getSQLState()).isEqualTo("42501"));
            }
        }
        assertThat(find(ferrow, examined)).isNotNull();
        try (Connection verifier = TestDatabase.asVerifier();
                Statement statement = verifier.createStatement()) {
            assertThatThrownBy(() -> statement.execute("select ledger_erase('" + site + "', '" + examined + "', '{}')"))
                    .hasMessageContaining("permission denied");
        }
    }

    /** Plants one secret in every private field that can be erased, and wherever else a record leaves something behind. */
    @Test
    void whatIsErasedStandsNowhereAndTheChainIsWhole() throws SQLException {
        Story ferrow = ferrow();
        Id worker = ferrow.id("W-61");
        List<RecordId> planted = plant(ferrow);
        bringsFiles(ferrow);
        RecordId form = ferrow.on("2026-05-12T14:00")
                .here(all -> RecordId.of(onceOnly.once(
                                ferrow.officer(),
                                "training",
                                "key-1",
                                List.of("trainer=" + secret),
                                () -> all.ledger()
                                        .append(
                                                org.hoodkeeper.ledger.Author.at(ferrow.officer()),
                                                Draft.of(
                                                                training(secret),
                                                                (WorkerId) worker,
                                                                ferrow.instant("2026-05-12T13:00"))
                                                        .scope("H20"))
                                        .toString())
                        .value()));
        stores(ferrow, planted);
        RecordId kept = tells(
                ferrow,
                new Employment(Employment.Change.ENDED, LocalDate.parse("2026-06-30")),
                "W-61",
                "2026-07-01T00:00");
        restated(ferrow);
        seal(ferrow);
        assertThat(Dump.tablesWith(secret))
                .as("where it stood before")
                .contains("ledger_private", "import_refusal", "import_row", "import_job");
        Chain.Checked before = check(ferrow);
        assertThat(before.broken()).isEmpty();

        ferrow.on("2070-01-02T12:00");
        Map<Kind, Integer> gone = new LinkedHashMap<>();
        for (Kind kind : ERASED) {
            List<Erasures.Due> due = due(ferrow, kind, now(ferrow));
            erase(ferrow, due.stream().map(Erasures.Due::record).toArray(RecordId[]::new));
            gone.put(kind, due.size());
        }
        // what ended a defect goes after what it ended
        List<Erasures.Due> mended = due(ferrow, Kind.DEFECT, now(ferrow));
        erase(ferrow, mended.stream().map(Erasures.Due::record).toArray(RecordId[]::new));
        List<Erasures.Due> reviewed = due(ferrow, Kind.SYMPTOM_REPORT, now(ferrow));
        erase(ferrow, reviewed.stream().map(Erasures.Due::record).toArray(RecordId[]::new));

        assertThat(gone)
                .containsEntry(Kind.TRAINING, 3)
                .containsEntry(Kind.MEDICAL_OUTCOME, 1)
                .containsEntry(Kind.FIT_TEST, 1)
                .containsEntry(Kind.SYMPTOM_REPORT, 1)
                .containsEntry(Kind.EXPOSURE_RESULT, 1)
                .containsEntry(Kind.EXAMINATION, 1)
                .containsEntry(Kind.PRE_USE_CHECK, 1)
                .containsEntry(Kind.PART_CHANGE, 1)
                .containsEntry(Kind.DEFECT, 1)
                .containsEntry(Kind.AIR_TEST, 1);
        assertThat(mended).hasSize(1);
        assertThat(reviewed).hasSize(1);
        assertThat(Dump.tablesWith(secret)).isEmpty();
        planted.forEach(record -> assertThat(find(ferrow, record)).isNull());
        assertThat(answersOn(ferrow, planted)).isZero();
        assertThat(find(ferrow, form)).isNull();
        assertThat(find(ferrow, kept)).isNotNull();

        seal(ferrow);
        Chain.Checked after = check(ferrow);
        assertThat(after.broken()).isEmpty();
        assertThat(after.entries()).isGreaterThan(before.entries());

        tamperings(ferrow, kept);
    }

    /** Each is done behind the back of the service and found, one after the other. */
    private void tamperings(Story ferrow, RecordId kept) throws SQLException {
        String site = "site_id = '" + ferrow.site().id() + "'";
        behindTheBack("update ledger_record set true_from = true_from + interval '1 day' where id = '" + kept + "' and "
                + site);
        assertThat(check(ferrow).broken())
                .extracting(Chain.Broken::what, Chain.Broken::id)
                .containsExactly(tuple("record.changed", kept.value()));
        behindTheBack(
                "delete from ledger_erased where ctid = (select min(ctid) from ledger_erased where " + site + ")");
        assertThat(check(ferrow).broken())
                .extracting(Chain.Broken::what)
                .containsExactlyInAnyOrder("record.changed", "record.missing", "erased.differs");
        behindTheBack("update ledger_erased set hash = decode('00', 'hex') where " + site);
        assertThat(check(ferrow).broken()).extracting(Chain.Broken::what).contains("entry.changed");
    }

    private static void behindTheBack(String sql) throws SQLException {
        try (Connection superuser = TestDatabase.asSuperuser();
                Statement statement = superuser.createStatement()) {
            assertThat(statement.executeUpdate(sql)).as(sql).isPositive();
        }
    }

    private List<RecordId> plant(Story ferrow) {
        List<RecordId> planted = new ArrayList<>();
        Id worker = ferrow.id("W-61");
        Id task = ferrow.id("T4");
        Id set = ferrow.id("S-114");
        ferrow.on("2026-05-12T12:00");
        Instant at = ferrow.instant("2026-05-12T09:00");
        RecordId first =
                ferrow.record(Draft.of(training("T. Trainer"), worker, at).scope("H20"));
        planted.add(first);
        planted.add(ferrow.here(all -> all.lookback()
                .corrections()
                .correct(
                        ferrow.viewer(Role.OFFICER),
                        first,
                        Draft.of(training(secret), worker, at).scope("H20"),
                        "because of " + secret)));
        planted.add(ferrow.record(Draft.of(fit(secret), worker, at)));
        planted.add(
                ferrow.record(Draft.of(fitTest(secret), worker, at).scope(new Variant("M20", "M", "R1").toString())));
        RecordId report = ferrow.record(Draft.of(new SymptomReport(SymptomReport.Step.REPORTED, secret), worker, at));
        planted.add(report);
        planted.add(ferrow.record(new Draft(
                new SymptomReport(SymptomReport.Step.REVIEWED, secret),
                worker.value(),
                report.value(),
                null,
                at,
                null,
                null,
                null,
                null)));
        planted.add(ferrow.record(Draft.of(
                        new ExposureResult(new BigDecimal("0.06"), "mg/m3", false, 240, "gravimetric", "W-61", secret),
                        task,
                        at)
                .scope("silica")));
        planted.add(ferrow.record(Draft.of(new Examination(Outcome.PASS, null, null, secret, secret), set, at)));
        planted.add(ferrow.record(Draft.of(preUse(secret), set, at).item(worker)));
        planted.add(ferrow.record(Draft.of(new PartChange("V-H20", null, null, null, true, secret), set, at)
                .scope("visor")));
        RecordId defect = ferrow.record(Draft.of(new Defect(Defect.Step.FOUND, "visor", secret), set, at));
        planted.add(defect);
        planted.add(ferrow.record(new Draft(
                new Defect(Defect.Step.MENDED, "visor", secret),
                set.value(),
                defect.value(),
                null,
                at,
                null,
                null,
                null,
                null)));
        planted.add(ferrow.record(Draft.of(air(secret), ferrow.id("AIR-1"), at)));
        return planted;
    }

    private static FitTest fitTest(String tester) {
        return new FitTest(
                FitTest.Method.QUANTITATIVE,
                "ambient particle count",
                List.of(new BigDecimal("2600")),
                Outcome.PASS,
                true,
                tester);
    }

    private static PreUseCheck preUse(String note) {
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        items.put(PreUseCheck.Item.RIGHT_SET, Outcome.PASS);
        return new PreUseCheck(items, null, null, Outcome.PASS, 100, note);
    }

    private static AirTest air(String tester) {
        return new AirTest(Outcome.PASS, "EN 12021:2014", null, null, null, null, null, tester, null, null, null);
    }

    /** What came later, so that no answer of 2070 rests on what was planted. */
    private void restated(Story ferrow) {
        ferrow.on("2069-12-01T12:00");
        Instant at = ferrow.instant("2069-12-01T09:00");
        Id set = ferrow.id("S-114");
        ferrow.tell(Draft.of(fitTest("F. Tester"), ferrow.id("W-61"), at)
                        .scope(new Variant("M20", "M", "R1").toString()))
                .tell(Draft.of(examination("E. Examiner"), set, at))
                .tell(Draft.of(preUse(null), set, at).item(ferrow.id("W-61")))
                .tell(Draft.of(new PartChange("V-H20", null, null, null, true, "F. Fitter"), set, at)
                        .scope("visor"))
                .tell(Draft.of(air("A. Tester"), ferrow.id("AIR-1"), at))
                .tell(Draft.of(
                        new TaskBasis(
                                List.of(new TaskBasis.Exposure("silica", new BigDecimal("0.6"), "mg/m3")),
                                TaskBasis.Mixture.ADDITIVE,
                                TaskBasis.Atmosphere.ORDINARY,
                                Set.of(),
                                MedicalOutcome.WorkRate.MODERATE,
                                "UTL95_70",
                                null,
                                null,
                                LocalDate.parse("2069-01-01"),
                                null,
                                null,
                                null,
                                null),
                        ferrow.id("T4"),
                        at));
    }

    /** A file that is refused, one that waits for a yes, and one that is recorded. */
    private void bringsFiles(Story ferrow) {
        String header =
                "source_id,worker,model,at,outcome,demonstrated,content_version,external,trainer,told_claimed\n";
        String good = header + "T-9,W-61,H20,2026-05-11T10:00+01:00,pass,yes,3,no," + secret + ",2026-05-11\n";
        brings(
                ferrow,
                ImportJob.Aim.RECORD,
                header + "T-9,W-61,H20,2026-05-11T10:00+01:00," + secret + ",yes,3,no,T. Trainer,\n",
                ImportJob.State.REFUSED);
        brings(ferrow, ImportJob.Aim.RECORD, good, ImportJob.State.RECORDED);
        brings(ferrow, ImportJob.Aim.TRY, good.replace("T-9", "T-10"), ImportJob.State.READY);
    }

    private void brings(Story ferrow, ImportJob.Aim aim, String text, ImportJob.State state) {
        Viewer officer = ferrow.officer();
        ImportJob job = ferrow.here(all -> imports.await(
                officer,
                imports.start(
                        officer,
                        FileKind.TRAININGS,
                        aim,
                        secret + ".csv",
                        new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8))),
                Duration.ofMinutes(2)));
        assertThat(job.state()).isEqualTo(state);
    }

    private int answersOn(Story ferrow, List<RecordId> records) {
        Integer count = ferrow.here(all -> all.transaction()
                .execute(status -> jdbc.queryForObject(
                        "select count(*) from stored_answer where site_id = ? and records && ?",
                        Integer.class,
                        ferrow.site().id().value(),
                        records.stream().map(RecordId::value).toArray(UUID[]::new))));
        return count == null ? 0 : count;
    }

    /** Somebody went in on it. */
    private void stores(Story ferrow, List<RecordId> records) {
        Interval wear = new Interval(ferrow.instant("2026-05-12T15:00"), ferrow.instant("2026-05-12T16:00"));
        Question gate = Question.ofSet(
                ferrow.site().id(),
                (WorkerId) ferrow.id("W-61"),
                (TaskId) ferrow.id("T4"),
                (SetId) ferrow.id("S-114"),
                wear,
                ferrow.instant("2026-05-12T14:30"));
        Answer answer = ferrow.here(all -> all.transaction().execute(status -> {
            Answer whole = all.questions().whole(gate);
            all.lookback().answers().keep(ferrow.officer(), whole, StoredAnswers.Purpose.GATE);
            return whole;
        }));
        assertThat(answer).isNotNull();
        assertThat(answersOn(ferrow, records))
                .as("it rests on what was planted")
                .isPositive();
    }
}
