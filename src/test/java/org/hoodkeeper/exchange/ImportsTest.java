package org.hoodkeeper.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Chain;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.ledger.Sealer;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Files in and out on the real database. */
@SpringBootTest
@Import(Desk.class)
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ImportsTest {

    @Autowired
    Desk desk;

    @Autowired
    Imports imports;

    @Autowired
    Ledger ledger;

    @Autowired
    Sealer sealer;

    @Autowired
    Chain chain;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    PlatformTransactionManager transactions;

    Site whole() {
        Site site = desk.site();
        WholeSite.FILES.forEach((kind, text) -> {
            Desk.Result result = desk.send(site, kind, text);
            assertThat(result.codes()).as(kind.slug()).isEmpty();
            assertThat(result.job().state()).as(kind.slug()).isEqualTo(ImportJob.State.RECORDED);
        });
        return site;
    }

    @Test
    void aSiteComesInGoesOutAndComesInAgainTheSame() {
        assertThat(WholeSite.FILES.keySet()).containsExactly(FileKind.values());
        Site first = whole();
        Map<FileKind, String> taken = new EnumMap<>(FileKind.class);
        for (FileKind kind : FileKind.values()) {
            taken.put(kind, desk.take(first, kind));
        }
        Site second = desk.site();
        taken.forEach((kind, text) -> {
            Desk.Result result = desk.send(second, kind, text);
            assertThat(result.codes()).as(kind.slug()).isEmpty();
            assertThat(desk.take(second, kind)).as(kind.slug()).isEqualTo(text);
        });
        sealAndCheck(first);
        sealAndCheck(second);
    }

    @Test
    void theSameFilesAgainChangeNothing() {
        Site site = whole();
        long before = records(site);
        WholeSite.FILES.forEach((kind, text) -> {
            Desk.Result again = desk.send(site, kind, text);
            assertThat(again.codes()).as(kind.slug()).isEmpty();
            assertThat(again.job().recorded()).as(kind.slug()).isZero();
            assertThat(again.job().already())
                    .as(kind.slug())
                    .isEqualTo(again.job().rows());
            Desk.Result exported = desk.send(site, kind, desk.take(site, kind));
            assertThat(exported.codes()).as(kind.slug()).isEmpty();
            assertThat(exported.job().recorded()).as(kind.slug()).isZero();
        });
        assertThat(records(site)).isEqualTo(before);
    }

    /** The visor of HOOD-A bears 30.5 °C; the hose was washed with the rest, which the model as a whole bears. */
    @Test
    void aWashOfAFileThatAPartDoesNotBearHoldsItsSetAsOneRecordedByHandDoes() {
        Site site = whole();
        Desk.Result washed = desk.send(site, FileKind.CLEANINGS, """
                source_id,set,at,method,product,strength,strength_basis,wet_seconds,celsius,told_claimed
                CL-8,H-1,2025-08-05T18:00+01:00,wash,,,,,38,
                CL-9,H-1,2025-08-06T18:00+01:00,wash,,,,,39,
                """);
        assertThat(washed.codes()).isEmpty();
        assertThat(washed.held()).containsExactly("H-1");
        String holds = desk.take(site, FileKind.HOLDS);
        assertThat(holds.lines().filter(line -> line.contains("visor V-1: 39 °C > 30.5 °C")))
                .singleElement()
                .asString()
                .contains("set:H-1,2025-08-05T18:00:00+01:00,placed,,quarantine");
        Site moved = desk.site();
        for (FileKind kind : FileKind.values()) {
            assertThat(desk.send(moved, kind, desk.take(site, kind)).codes())
                    .as(kind.slug())
                    .isEmpty();
        }
        assertThat(desk.take(moved, FileKind.HOLDS)).isEqualTo(holds);
    }

    /** The visor bears 300 washes, and came in on 1 May; CL-1 is the first. */
    @Test
    void theLastWashOfAFileThatAPartDoesNotBearHoldsItsSet() {
        Site site = whole();
        String columns = "source_id,set,at,method,product,strength,strength_basis,wet_seconds,celsius,told_claimed\n";
        desk.send(site, FileKind.CLEANINGS, columns + washes(101, 399));
        assertThat(desk.take(site, FileKind.HOLDS)).doesNotContain("quarantine");
        desk.send(site, FileKind.CLEANINGS, columns + washes(400, 400));
        assertThat(desk.take(site, FileKind.HOLDS)).contains("quarantine,visor V-1: 301 > 300");
    }

    private static String washes(int first, int last) {
        return IntStream.rangeClosed(first, last)
                .mapToObj(wash -> "CL-%d,H-1,2025-08-05T0%d:%d%d+01:00,wash,,,,,30,\n"
                        .formatted(wash, wash / 60, wash % 60 / 10, wash % 10))
                .collect(Collectors.joining());
    }

    /** The visor that was spoilt came out on 2 September. */
    @Test
    void aWashOfAFileHoldsNothingForAPartThatCameOutSince() {
        Site site = whole();
        desk.send(site, FileKind.PART_CHANGES, """
                source_id,set,slot,at,part,lot,serial,made_on,fitter_trained,fitter,told_claimed
                PT-8,H-1,visor,2025-09-02T09:00+01:00,V-2,L-78,,2025-01-15,yes,Flo Invented,
                """);
        Desk.Result washed = desk.send(site, FileKind.CLEANINGS, """
                source_id,set,at,method,product,strength,strength_basis,wet_seconds,celsius,told_claimed
                CL-8,H-1,2025-08-05T18:00+01:00,wash,,,,,38,
                """);
        assertThat(washed.codes()).isEmpty();
        assertThat(washed.held()).isEmpty();
        assertThat(desk.take(site, FileKind.HOLDS)).doesNotContain("quarantine");
    }

    @Test
    void aFileIsOneEntryAndTheChainHolds() {
        Site site = whole();
        long entries = count(site, "select count(*) from ledger_entry where site_id = :site and via = 'import'");
        // four files enter names alone
        assertThat(entries).isEqualTo(FileKind.values().length - 4);
        sealAndCheck(site);
    }

    @Test
    void aFileThatIsNotWholeRecordsNothing() {
        Site site = whole();
        long before = records(site);
        Desk.Result result = desk.send(site, FileKind.OBSERVATIONS, """
                source_id,worker,at,seen,note,told_claimed
                O-7,W-1,2025-07-03T12:00+01:00,clear-at-seal,,
                O-8,W-9,2025-07-03T12:00+01:00,clear-at-seal,,
                """);
        assertThat(result.job().state()).isEqualTo(ImportJob.State.REFUSED);
        assertThat(result.codes()).containsExactly("3 worker exchange.unknown.WORKER");
        assertThat(records(site)).isEqualTo(before);
        assertThat(count(site, "select count(*) from import_row where site_id = :site"))
                .isZero();
    }

    @Test
    void whatIsOnRecordWithOtherContentIsRefusedAndSaysWhatDiffers() {
        Site site = whole();
        Desk.Result result = desk.send(
                site,
                FileKind.MEASURED_CONDITIONS,
                "source_id,task,at,quantity,value\nMC-1,BLAST,2025-07-04T08:00+01:00,wbgt,31\n");
        assertThat(result.codes()).containsExactly("2 value exchange.other");
        assertThat(result.refusals().get(0).arguments()).containsExactly("MC-1", "value=24.5");
        assertThat(desk.send(site, FileKind.WORKERS, "number,name\nW-1,Somebody Else\n")
                        .codes())
                .containsExactly("2 name exchange.other");
        assertThat(desk.send(
                                site,
                                FileKind.LIMITS,
                                "substance,from,value,unit,filters,air_fed_only,source,mark\nsilica,2025-01-01,0.2,mg/m3,particle,no,EH40 table 1,restated\n")
                        .codes())
                .containsExactly("2 value exchange.other");
    }

    @Test
    void aCorrectionMadeHereIsNeitherUndoneNorToldAgain() {
        Site site = whole();
        String original = WholeSite.FILES.get(FileKind.OBSERVATIONS);
        SiteBinding.run(
                site.id(),
                () -> new TransactionTemplate(transactions).executeWithoutResult(status -> {
                    RecordId record = jdbc.sql(
                                    "select id from ledger_record where site_id = :site and source_id = 'O-1'")
                            .param("site", site.id().value())
                            .query((row, n) -> new RecordId(row.getObject(1, UUID.class)))
                            .single();
                    WorkerId worker = jdbc.sql("select id from worker where site_id = :site and number = 'W-2'")
                            .param("site", site.id().value())
                            .query((row, n) -> new WorkerId(row.getObject(1, UUID.class)))
                            .single();
                    Draft draft = Draft.of(
                                    new Observation(Observation.Seen.CLEAR_AT_SEAL, null),
                                    worker,
                                    Instant.parse("2025-07-03T11:00:00Z"))
                            .correcting(record, "Wrong person looked at");
                    ledger.append(new Author(site.id(), new AccountId(UUID.randomUUID()), Author.Via.FORM), draft);
                }));
        String exported = desk.take(site, FileKind.OBSERVATIONS);
        assertThat(exported).contains("O-1,W-2,2025-07-03T12:00:00+01:00,clear-at-seal");
        assertThat(desk.send(site, FileKind.OBSERVATIONS, original).job().recorded())
                .isZero();
        assertThat(desk.send(site, FileKind.OBSERVATIONS, exported).job().already())
                .isEqualTo(1);
        assertThat(desk.take(site, FileKind.OBSERVATIONS)).isEqualTo(exported);
    }

    @Test
    void aReadingIsJudgedByTheYardstickOfItsDay() {
        Site site = whole();
        // 190.0 at 18 °C and 1,005 hPa, calibrated at 20 °C and 1,013.25 hPa, reads 6 % high:
        // √(1013.25 × 291.15 ÷ (1005 × 293.15)) ÷ 1.06 × 190 = 179.359…, rounded down
        assertThat(body(site, "FC-1")).contains("\"corrected\":179.3").contains("\"outcome\":\"PASS\"");
        assertThat(body(site, "FC-2")).doesNotContain("corrected").contains("\"outcome\":\"FAIL\"");
    }

    @Test
    void aReadingOfAnInstrumentWithoutCalibrationIsKeptAndNoted() {
        Site site = whole();
        Desk.Result result = desk.send(
                site,
                FileKind.FLOW_CHECKS,
                "source_id,set,at,reading,instrument\nFC-9,H-1,2025-07-05T06:00+01:00,190,IND-2\n");
        assertThat(result.job().recorded()).isEqualTo(1);
        assertThat(result.job().unjudged()).isEqualTo(1);
    }

    @Test
    void contradictingClaimsAreKeptAndTheSetIsHeldUntilItIsScanned() {
        Site site = whole();
        Desk.Result result = desk.send(site, FileKind.CUSTODY, """
                source_id,set,at,claim,worker
                C-8,H-1,2025-09-01T07:00+01:00,issued,W-1
                C-9,H-1,2025-09-02T07:00+01:00,issued,W-2
                """);
        assertThat(result.job().recorded()).isEqualTo(2);
        assertThat(result.job().disputed()).isEqualTo(1);
        assertThat(result.held()).containsExactly("H-1");
        assertThat(desk.take(site, FileKind.HOLDS)).contains("set:H-1,2025-09-02T07:00:00+01:00,placed,,disputed");
        sealAndCheck(site);
    }

    @Test
    void aDayAloneCountsFromItsEndUnlessItTakesSomethingAway() {
        Site site = whole();
        String trainings = desk.take(site, FileKind.TRAININGS);
        assertThat(trainings).contains("T-2,W-2,HOOD-A,2025-03-05T00:00:00Z,pass");
        desk.send(
                site,
                FileKind.TRAININGS,
                "source_id,worker,model,at,outcome,demonstrated,external\nT-3,W-1,HOOD-A,2025-04-01,fail,no,no\n");
        assertThat(desk.take(site, FileKind.TRAININGS)).contains("T-3,W-1,HOOD-A,2025-04-01T00:00:00+01:00,fail");
        String postings = desk.take(site, FileKind.POSTINGS);
        assertThat(postings).contains("P-1,W-1,BLAST,2025-03-01T00:00:00Z,2026-03-01T00:00:00Z,posted");
    }

    @Test
    void theSiteMayLetADayAloneCountOnItself() {
        Site site = whole();
        desk.send(
                site,
                FileKind.DECISIONS,
                "key,from,value,owner,reason\nevidence.date-only,2025-01-01,same-day,Safety officer,Old books have days\n");
        desk.send(
                site,
                FileKind.TRAININGS,
                "source_id,worker,model,at,outcome,demonstrated,external\nT-4,W-1,HOOD-A,2025-03-04,pass,yes,no\n");
        assertThat(desk.take(site, FileKind.TRAININGS)).contains("T-4,W-1,HOOD-A,2025-03-04T00:00:00Z,pass");
    }

    @Test
    void theClaimedDayOfTellingIsAClaim() {
        Site site = whole();
        assertThat(desk.take(site, FileKind.TRAININGS)).contains("Cy Invented,2025-03-05");
        assertThat(
                        count(
                                site,
                                "select count(*) from ledger_record where site_id = :site and recorded_at < now() - interval '1 day'"))
                .isZero();
    }

    @Test
    void aFormulaIsGuardedAndNumbersStayNumbers() {
        Site site = whole();
        assertThat(desk.take(site, FileKind.WORKERS)).contains("W-3,'=cmd|'/c calc'!A1,");
        assertThat(desk.take(site, FileKind.SUPPLY_MOVES)).contains("'@ gate 4");
        assertThat(desk.take(site, FileKind.HOLDS)).contains("'-no mask worn");
        assertThat(desk.take(site, FileKind.AIR_TESTS)).contains(",-45,");
        assertThat(Guard.put("\uff1dA1")).isEqualTo("'\uff1dA1");
        assertThat(Guard.take("'\uff1dA1")).isEqualTo("\uff1dA1");
        assertThat(Guard.take(Guard.put("'=1"))).isEqualTo("'=1");
        assertThat(Guard.put("O'Neil")).isEqualTo("O'Neil");
    }

    @Test
    void lookingRecordsNothingUntilAPersonSaysSo() {
        Site site = desk.site();
        Viewer officer = desk.viewer(site, Role.OFFICER);
        Desk.Result look = desk.send(
                officer,
                FileKind.TASKS,
                ImportJob.Aim.TRY,
                new ByteArrayInputStream("code\nBLAST\n".getBytes(StandardCharsets.UTF_8)));
        assertThat(look.job().state()).isEqualTo(ImportJob.State.READY);
        assertThat(look.job().fresh()).isEqualTo(1);
        assertThat(desk.take(site, FileKind.TASKS)).isEqualTo("code\r\n");
        SiteBinding.run(site.id(), () -> imports.record(officer, look.job().id()));
        assertThat(desk.result(officer, look.job().id()).job().state()).isEqualTo(ImportJob.State.RECORDED);
        assertThat(desk.take(site, FileKind.TASKS)).isEqualTo("code\r\nBLAST\r\n");
        assertThatThrownBy(() -> SiteBinding.run(
                        site.id(), () -> imports.record(officer, look.job().id())))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("exchange.job.notReady");
    }

    @Test
    void medicalFilesStayBehindTheWall() {
        Site site = whole();
        Viewer officer = desk.viewer(site, Role.OFFICER, Role.STOREKEEPER, Role.TRAINER, Role.ADMINISTRATOR);
        Viewer health = desk.viewer(site, Role.HEALTH);
        for (FileKind kind : List.of(FileKind.MEDICAL_OUTCOMES, FileKind.SYMPTOM_REPORTS)) {
            String text = WholeSite.FILES.get(kind);
            assertThatThrownBy(() -> desk.send(
                            officer,
                            kind,
                            ImportJob.Aim.TRY,
                            new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8))))
                    .hasMessageContaining("exchange.notYours");
            assertThatThrownBy(() -> desk.take(officer, kind)).hasMessageContaining("exchange.notYours");
            Desk.Result own = desk.send(
                    health, kind, ImportJob.Aim.TRY, new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
            assertThatThrownBy(() -> desk.result(officer, own.job().id())).hasMessageContaining("exchange.job.unknown");
        }
        assertThatThrownBy(() -> desk.take(health, FileKind.TRAININGS)).hasMessageContaining("exchange.notYours");
    }

    /** It may suspend people or let them in again, and a row that differs is answered with what is on record. */
    @Test
    void theStoreBringsInNoFileOfHolds() {
        assertThatThrownBy(() -> desk.send(
                        desk.viewer(desk.site(), Role.STOREKEEPER),
                        FileKind.HOLDS,
                        ImportJob.Aim.TRY,
                        new ByteArrayInputStream(
                                WholeSite.FILES.get(FileKind.HOLDS).getBytes(StandardCharsets.UTF_8))))
                .hasMessageContaining("exchange.notYours");
    }

    @Test
    void anEmployerTakesItsOwnStaffOnly() {
        Site site = whole();
        Viewer employer = new Viewer(
                site.id(),
                new AccountId(UUID.randomUUID()),
                java.util.Set.of(Role.EMPLOYER),
                null,
                "Dustless Contracts");
        assertThat(desk.take(employer, FileKind.WORKERS)).contains("W-2").doesNotContain("W-1");
        assertThat(desk.take(employer, FileKind.TRAININGS)).contains("T-2").doesNotContain("T-1");
        assertThatThrownBy(() -> desk.take(employer, FileKind.CUSTODY)).hasMessageContaining("exchange.notYours");
        assertThat(desk.take(desk.viewer(site, Role.STOREKEEPER), FileKind.HOLDS))
                .contains("HO-1")
                .doesNotContain("HO-3");
        assertThatThrownBy(() -> desk.take(desk.viewer(site, Role.WORKER), FileKind.WORKERS))
                .hasMessageContaining("exchange.notYours");
    }

    @Test
    void eachExportIsInTheAuditTrail() {
        Site site = desk.site();
        desk.take(site, FileKind.WORKERS);
        assertThat(
                        count(
                                site,
                                "select count(*) from audit_event where site_id = :site and kind = 'file.taken' and detail = 'workers'"))
                .isEqualTo(1);
    }

    @Test
    void aJobWhoseInstanceDiedIsBrokenOffAndItsRowsGo() {
        Site site = desk.site();
        Viewer officer = desk.viewer(site, Role.OFFICER);
        Desk.Result look = desk.send(
                officer,
                FileKind.TASKS,
                ImportJob.Aim.TRY,
                new ByteArrayInputStream("code\nBLAST\n".getBytes(StandardCharsets.UTF_8)));
        assertThat(count(site, "select count(*) from import_row where site_id = :site"))
                .isEqualTo(1);
        SiteBinding.run(
                site.id(),
                () -> new TransactionTemplate(transactions)
                        .executeWithoutResult(status -> jdbc.sql("update import_job set state = 'RECORDING',"
                                        + " seen_at = now() - interval '2 minutes' where site_id = :site")
                                .param("site", site.id().value())
                                .update()));
        assertThat(desk.result(officer, look.job().id()).job().state()).isEqualTo(ImportJob.State.BROKEN_OFF);
        assertThat(desk.take(site, FileKind.TASKS)).isEqualTo("code\r\n");
        desk.send(site, FileKind.TASKS, "code\nCUT\n");
        assertThat(count(site, "select count(*) from import_row where site_id = :site"))
                .isZero();
    }

    @Test
    void theSameFileSentTwiceAtOnceIsRecordedOnce() {
        Site site = whole();
        Viewer officer = desk.viewer(site, Role.OFFICER);
        StringBuilder text = new StringBuilder("source_id,worker,at,seen\n");
        for (int i = 0; i < 3_000; i++) {
            text.append("OO-").append(i).append(",W-1,2025-07-03T12:00Z,worn-right\n");
        }
        byte[] file = text.toString().getBytes(StandardCharsets.UTF_8);
        List<UUID> jobs = SiteBinding.in(
                site.id(),
                () -> List.of(
                        imports.start(
                                officer,
                                FileKind.OBSERVATIONS,
                                ImportJob.Aim.RECORD,
                                null,
                                new ByteArrayInputStream(file)),
                        imports.start(
                                officer,
                                FileKind.OBSERVATIONS,
                                ImportJob.Aim.RECORD,
                                null,
                                new ByteArrayInputStream(file))));
        List<ImportJob> over =
                jobs.stream().map(job -> desk.result(officer, job).job()).toList();
        assertThat(over).extracting(ImportJob::state).containsOnly(ImportJob.State.RECORDED);
        assertThat(over).extracting(ImportJob::recorded).containsExactlyInAnyOrder(3_000L, 0L);
        assertThat(over).extracting(ImportJob::already).containsExactlyInAnyOrder(0L, 3_000L);
        sealAndCheck(site);
    }

    @ParameterizedTest(name = "{0}: {3}")
    @CsvSource(
            delimiter = '~',
            quoteCharacter = '`',
            value = {
                "TRAININGS ~ T,W-1,HOOD-A,2025-03-04T10:00,pass,yes,,no,, ~ at ~ exchange.offset",
                "TRAININGS ~ T,W-1,HOOD-A,4 March 2025,pass,yes,,no,, ~ at ~ exchange.moment",
                "TRAININGS ~ T,W-1,HOOD-A,2025-02-30,pass,yes,,no,, ~ at ~ exchange.day",
                "TRAININGS ~ T,W-1,HOOD-A,2099-02-03T10:00Z,pass,yes,,no,, ~ at ~ exchange.future",
                "TRAININGS ~ T,W-1,HOOD-A,1025-02-03T10:00Z,pass,yes,,no,, ~ at ~ exchange.year",
                "TRAININGS ~ T,W-1,HOOD-X,2025-03-04T10:00Z,pass,yes,,no,, ~ model ~ exchange.unknown.MODEL",
                "TRAININGS ~ T,W-1,HOOD-A,2025-03-04T10:00Z,passed,yes,,no,, ~ outcome ~ exchange.choice",
                "TRAININGS ~ T,W-1,HOOD-A,2025-03-04T10:00Z,pass,maybe,,no,, ~ demonstrated ~ exchange.choice",
                "TRAININGS ~ ,W-1,HOOD-A,2025-03-04T10:00Z,pass,yes,,no,, ~ source_id ~ exchange.missing",
                "TRAININGS ~ T,W-1,HOOD-A,2025-03-04T10:00Z,pass,yes,,no, ~ `` ~ exchange.cells",
                "TRAININGS ~ T,W-1,HOOD-A,2025-03-04T10:00Z,pass,yes,,no,,soon ~ told_claimed ~ exchange.day",
                "WEARS ~ W,W-1,H-1,BLAST,2025-07-04,,entry, ~ from ~ exchange.timeMissing",
                "WEARS ~ W,W-1,H-1,BLAST,2025-07-04T10:00Z,2025-07-04T09:00Z,whole, ~ until ~ exchange.order",
                "WEARS ~ W,W-1,H-1,BLAST,2025-07-04T10:00Z,2099-07-04T11:00Z,whole, ~ until ~ exchange.future",
                "WEARS ~ W,W-1,H-1,BLAST,2025-07-04T10:00Z,,whole, ~ until ~ exchange.until.wear",
                "WEARS ~ W,W-1,H-9,BLAST,2025-07-04T10:00Z,,entry, ~ set ~ exchange.unknown.SET",
                "WEARS ~ W,W-1,H-1,GRIND,2025-07-04T10:00Z,,entry, ~ task ~ exchange.unknown.TASK",
                "FLOW_CHECKS ~ F,H-1,2025-07-01T06:00Z,\"190,0\",IND-1,,, ~ reading ~ exchange.decimal",
                "FLOW_CHECKS ~ F,H-1,2025-07-01T06:00Z,1e3,IND-1,,, ~ reading ~ exchange.decimal",
                "FLOW_CHECKS ~ F,H-1,2025-07-01T06:00Z,1900,IND-1,,, ~ reading ~ flowCheck.reading.range",
                "FLOW_CHECKS ~ F,M-1,2025-07-01T06:00Z,190,IND-1,,, ~ `` ~ exchange.flow.none",
                "FLOW_CHECKS ~ F,H-1,2025-07-01T06:00Z,190,IND-9,,, ~ instrument ~ exchange.unknown.INSTRUMENT",
                "FIT_TESTS ~ F,W-1,MASK-B/S,2025-03-02T11:00Z,qualitative,,,pass,yes,, ~ variant ~ variant.form",
                "FIT_TESTS ~ F,W-1,HOOD-A/M/R1,2025-03-02T11:00Z,qualitative,,,pass,yes,, ~ `` ~ fitTest.model.loose",
                "FIT_TESTS ~ F,W-1,MASK-B/S/R1,2025-03-02T11:00Z,quantitative,,100; ;200,pass,yes,, ~ exercises ~ exchange.emptyPart",
                "MEDICAL_OUTCOMES ~ M,W-1,2025-03-01T09:00Z,fit,,0,,,no,,, ~ max_wear_minutes ~ medical.maxWearMinutes.range",
                "MEDICAL_OUTCOMES ~ M,W-1,2025-03-01T09:00Z,fit,,12.5,,,no,,, ~ max_wear_minutes ~ exchange.whole",
                "MEDICAL_OUTCOMES ~ M,W-1,2025-03-01T09:00Z,fit,hood,,,,no,,, ~ interfaces ~ exchange.choice",
                "MEDICAL_OUTCOMES ~ M,W-1,2025-03-01T09:00Z,fit,,,,,no,2024-01-01,, ~ review_on ~ medical.reviewOn.before",
                "HOLDS ~ H,H-1,2025-06-01T09:00Z,placed,,recall,, ~ about ~ exchange.about",
                "HOLDS ~ H,set:H-1,2025-06-01T09:00Z,released,,recall,, ~ ends ~ exchange.ends.missing",
                "HOLDS ~ H,set:H-1,2025-06-01T09:00Z,placed,HO-1,recall,, ~ ends ~ exchange.ends.notNeeded",
                "HOLDS ~ H,set:H-1,2025-06-01T09:00Z,released,HO-77,recall,, ~ ends ~ exchange.ends.unknown",
                "CUSTODY ~ C,H-1,2025-06-01T09:00Z,issued,,,, ~ worker ~ exchange.worker.custody",
                "PRE_USE_CHECKS ~ P,H-1,W-1,2025-06-01T09:00Z,visor,,,,,, ~ items ~ exchange.items",
                "PRE_USE_CHECKS ~ P,H-1,W-1,2025-06-01T09:00Z,visor=pass,,,,101,, ~ charge_percent ~ preUseCheck.chargePercent.range",
                "TASK_BASES ~ B,BLAST,2025-02-01,silica 1.42,additive,ordinary,,heavy,,,,,,,,, ~ exposures ~ exchange.exposures",
                "POSTINGS ~ P,W-1,BLAST,2025-03-01,2025-02-01,posted, ~ until ~ exchange.order",
                "BOOKINGS ~ B,W-1,2031-01-05T09:00Z,cleaning,, ~ what ~ exchange.choice",
                "MODELS ~ bad code,2025-01-01,X,powered-hood,,no,,R1,170,local,,,,, ~ code ~ exchange.code",
                "MODELS ~ NEW,2025-01-01,X,powered-hood,TH2,no,,R1,170,local,,,,, ~ classes ~ exchange.classes",
                "MODELS ~ NEW,2025-01-01,X,powered-hood,,no,,R1,170,local,,,OX-4,, ~ products ~ exchange.products",
                "MODELS ~ NEW,2025-01-01,X,powered-hood,,no,,R1,170,local,,,,,visor ~ slots ~ exchange.slots",
                "DECISIONS ~ no.such.key,2025-01-01,x,Officer,Because ~ key ~ decision.key.unknown",
                "DECISIONS ~ notice.period,2025-01-01,soon,Officer,Because ~ * ~ *",
                "SETS ~ NEW-1,2025-01-01,HOOD-X,M,R1,,no,, ~ model ~ exchange.unknown.MODEL",
                "WORKERS ~ W 9,Name, ~ number ~ exchange.code",
                "WORKERS ~ W-9,, ~ name ~ exchange.missing",
                "CALIBRATIONS ~ C,IND-1,2025-01-10T09:00Z,pass,yes,3,,20,1013.25,2026-01-10,,, ~ factor ~ calibration.factor.range",
                "CLEANINGS ~ C,H-1,2025-08-01T18:00Z,wash-and-disinfect,,,,,, ~ product ~ cleaning.product.missing",
                "EXAMINATIONS ~ E,H-1,2025-07-01T06:30Z,pass,188,,,, ~ indicator ~ examination.indicator.missing",
                "DEFECTS ~ D,H-1,2025-05-02T09:00Z,found,,,, ~ note ~ defect.note.missing",
                "AIR_TESTS ~ A,AIR-1,2025-05-01T09:00Z,pass,EN 12021,120,,,,,,,,, ~ oxygen_percent ~ airTest.oxygenPercent.range",
                "SUPPLY_MOVES ~ S,AIR-9,2025-05-20T09:00Z,gate, ~ supply ~ exchange.unknown.SUPPLY",
                "LIMITS ~ lead,2025-01-01,0,mg/m3,,particle,no,EH40,restated,,, ~ value ~ limit.value.range",
                "EXPOSURE_RESULTS ~ X,BLAST,silica,2025-05-22T09:00Z,0,mg/m3,no,,,,,,,, ~ value ~ exposure.value.range",
                "EXPOSURE_RESULTS ~ X,BLAST,silica,2025-05-22T09:00Z,-0.1,mg/m3,no,,,,,,,, ~ value ~ exposure.value.range",
                "EXPOSURE_RESULTS ~ X,BLAST,silica,2025-05-22T09:00Z,0.1,ppm,no,,,,,,,, ~ unit ~ exposure.unit.differs",
                "EXPOSURE_RESULTS ~ X,BLAST,silica,2024-05-22T09:00Z,0.1,ppm,no,,,,,,,, ~ unit ~ exposure.unit.differs",
                "EXPOSURE_RESULTS ~ X,BLAST,lead,2025-05-22T09:00Z,0.1,mg/m3,no,,,,,,,, ~ substance ~ exposure.substance.unknown",
                "MEASURED_CONDITIONS ~ M,BLAST,2025-07-04T08:00Z,wbgt,99, ~ value ~ condition.value.range",
            })
    void aBadRowIsRefusedWithItsColumn(FileKind kind, String row, String column, String code) {
        String header = WholeSite.FILES.get(kind).lines().findFirst().orElseThrow();
        Desk.Result result = desk.send(badRows(), kind, header + "\n" + row + "\n");
        assertThat(result.job().state()).isEqualTo(ImportJob.State.REFUSED);
        RowRefusal first = result.refusals().get(0);
        assertThat(first.row()).isEqualTo(2);
        if (!column.equals("*")) {
            assertThat(first.code()).isEqualTo(code);
            assertThat(first.column()).isEqualTo(column);
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '~',
            value = {
                "number;name;employer ~ exchange.file.semicolons",
                "number ~ exchange.file.columnMissing",
                "number,name,shoe ~ exchange.file.columnUnknown",
                "number,name,name ~ exchange.file.columnTwice",
                "NUMBER,name ~ exchange.file.columnUnknown",
            })
    void aHeaderThatIsNotTheKindsIsRefused(String header, String code) {
        Desk.Result result = desk.send(badRows(), FileKind.WORKERS, header + "\nW-8,Name\n");
        assertThat(result.codes()).containsExactly("1  " + code);
        assertThat(result.job().state()).isEqualTo(ImportJob.State.REFUSED);
    }

    @Test
    void whatStandsTwiceInTheFileIsRefusedWithBothRows() {
        Desk.Result result = desk.send(badRows(), FileKind.SUPPLY_MOVES, """
                source_id,supply,at,place
                S-1,AIR-1,2025-05-21T09:00Z,east
                S-2,AIR-1,2025-05-22T09:00Z,west
                S-1,AIR-1,2025-05-23T09:00Z,north
                """);
        assertThat(result.codes()).containsExactly("4 source_id exchange.twice");
        assertThat(result.refusals().get(0).arguments()).containsExactly("S-1", "2");
        assertThat(desk.send(badRows(), FileKind.TASKS, "code\nDRILL\nDRILL\n").codes())
                .containsExactly("3 code exchange.twice");
    }

    @Test
    void columnsMayStandInAnyOrderAndOptionalOnesMayBeLeftOut() {
        Site site = whole();
        assertThat(desk.send(site, FileKind.WORKERS, "name,number\r\nHal Invented,W-7\r\n")
                        .codes())
                .isEmpty();
        assertThat(desk.take(site, FileKind.WORKERS)).contains("W-7,Hal Invented,\r\n");
    }

    @Test
    void aLaterRowOfTheSameLabelIsAChangeFromItsDay() {
        Site site = whole();
        String change =
                "label,from,model,size,seal_revision,emergency,store\nH-1,2025-06-01T08:00Z,HOOD-A,L,R1,no,South store\n";
        assertThat(desk.send(site, FileKind.SETS, change).job().recorded()).isEqualTo(1);
        assertThat(desk.send(site, FileKind.SETS, change).job().already()).isEqualTo(1);
        assertThat(desk.take(site, FileKind.SETS))
                .contains("H-1,2025-02-03T08:00:00Z,HOOD-A,M")
                .contains("H-1,2025-06-01T09:00:00+01:00,HOOD-A,L");
        // received once, however often its data change
        assertThat(count(
                        site,
                        "select count(*) from ledger_record where site_id = :site and body ->> 'claim' = 'RECEIVED'"))
                .isEqualTo(2);
    }

    private static final String LIMIT_COLUMNS = "substance,from,value,unit,filters,air_fed_only,source,mark\n";

    /** BLAST states silica in mg/m³ from February 2025 on, and was sampled in May. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "silica,2025-02-10,0.05,ppm | unit limit.unit.differs",
                "silica,2025-01-10,0.05,ppm | unit limit.unit.differs",
                "silica,2099-01-01,0.05,ppm | unit limit.unit.differs",
                "Silica,2025-02-10,0.05,mg/m3 | substance limit.substance.spelling"
            })
    void aLimitOfAFileGoesWithWhatIsOnRecord(String row, String refused) {
        Desk.Result result =
                desk.send(badRows(), FileKind.LIMITS, LIMIT_COLUMNS + row + ",particle,no,EH40,restated\n");
        assertThat(result.job().state()).isEqualTo(ImportJob.State.REFUSED);
        assertThat(result.codes()).containsExactly("2 " + refused);
    }

    /** Nothing was stated or sampled while it counted. */
    @Test
    void aLimitInAnotherUnitThatEndedBeforeIsHistory() {
        Site site = whole();
        String ended = LIMIT_COLUMNS + "silica,2015-01-01,40,ppm,particle,no,Old list,from-memory\n";
        assertThat(desk.send(site, FileKind.LIMITS, ended).job().recorded()).isEqualTo(1);
        assertThat(desk.send(site, FileKind.LIMITS, ended).job().already()).isEqualTo(1);
    }

    @Test
    void twoSpellingsInOneFileAreRefusedBothAndOneOnRecordIsNoSlip() {
        Site site = whole();
        assertThat(desk.send(site, FileKind.LIMITS, LIMIT_COLUMNS + """
                        silica,2026-01-01,0.05,mg/m3,particle,no,EH40,restated
                        SILICA,2026-02-01,0.05,mg/m3,particle,no,EH40,restated
                        """).codes())
                .containsExactly("3 substance limit.substance.spelling");
        assertThat(desk.send(site, FileKind.LIMITS, LIMIT_COLUMNS + """
                        Cobalt,2025-01-01,0.1,mg/m3,particle,no,EH40,restated
                        cobalt,2026-01-01,0.1,mg/m3,particle,no,EH40,restated
                        """).codes())
                .containsExactly("2 substance limit.substance.spelling", "3 substance limit.substance.spelling");
    }

    private static final String BASIS_COLUMNS =
            "source_id,task,from,exposures,mixture,atmosphere,work_rate,assessor,why_below\n";

    /** 0.62 mg/m³ was measured on 22 May 2025. */
    @Test
    void anAssessmentOfAFileGoesWithLimitsAndResults() {
        Site site = whole();
        assertThat(desk.send(site, FileKind.TASK_BASES, BASIS_COLUMNS + """
                        B-7,BLAST,2025-05-20,silica=0.2 mg/m3,additive,ordinary,heavy,H. Ives,
                        B-8,BLAST,2025-06-01,silica=0.2 ppm,additive,ordinary,heavy,H. Ives,Wet cutting
                        B-9,BLAST,2025-06-02,silica=0.2 mg/m3,additive,ordinary,heavy,H. Ives,
                        B-10,BLAST,2025-06-03,Silica=0.7 mg/m3,additive,ordinary,heavy,H. Ives,
                        """).codes())
                .containsExactly(
                        "3 exposures basis.exposures.unitDiffers",
                        "4 why_below basis.whyBelow.byHighest",
                        "5 exposures basis.exposures.spelling");
        assertThat(desk.send(site, FileKind.TASK_BASES, BASIS_COLUMNS + """
                        B-6,BLAST,2025-06-01,iron=2 mg/m3,additive,ordinary,heavy,H. Ives,
                        """)
                        .refusals()
                        .get(0)
                        .arguments())
                .as("nothing is stated of silica")
                .containsExactly("silica", "0.62", "mg/m³", null);
        String whole = BASIS_COLUMNS + """
                B-7,BLAST,2025-05-20,silica=0.2 mg/m3,additive,ordinary,heavy,H. Ives,
                B-9,BLAST,2025-06-02,silica=0.2 mg/m3,additive,ordinary,heavy,H. Ives,Wet cutting since June
                """;
        assertThat(desk.send(site, FileKind.TASK_BASES, whole).job().recorded()).isEqualTo(2);
        desk.send(
                site,
                FileKind.EXPOSURE_RESULTS,
                "source_id,task,substance,at,value,unit,below_detection\nX-9,BLAST,silica,2025-05-10T09:00Z,3,mg/m3,no\n");
        assertThat(desk.send(site, FileKind.TASK_BASES, whole).job().already())
                .as("a result told since asks nothing of what was recorded before it")
                .isEqualTo(2);
    }

    private Site badRows;

    private Site badRows() {
        if (badRows == null) {
            badRows = whole();
        }
        return badRows;
    }

    private void sealAndCheck(Site site) {
        SiteBinding.run(site.id(), () -> {
            sealer.seal(site.id());
            assertThat(chain.check(site.id()).broken()).isEmpty();
            assertThat(chain.check(site.id()).entries()).isPositive();
        });
    }

    private long records(Site site) {
        return count(site, "select count(*) from ledger_record where site_id = :site");
    }

    private long count(Site site, String sql) {
        return SiteBinding.in(
                site.id(),
                () -> new TransactionTemplate(transactions)
                        .execute(status -> jdbc.sql(sql)
                                .param("site", site.id().value())
                                .query(Long.class)
                                .single()));
    }

    private String body(Site site, String source) {
        return SiteBinding.in(
                site.id(),
                () -> new TransactionTemplate(transactions)
                        .execute(status -> jdbc.sql(
                                        "select body::text from ledger_record where site_id = :site and source_id = :source")
                                .param("site", site.id().value())
                                .param("source", source)
                                .query(String.class)
                                .single()));
    }
}
