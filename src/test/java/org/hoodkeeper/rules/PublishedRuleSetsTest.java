package org.hoodkeeper.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.Period;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The two rule sets that are delivered, against what is published. */
class PublishedRuleSetsTest {

    static final RuleSet UK = read("uk-2026-5");

    static final RuleSet US = read("us-federal-2026-5");

    private static final LocalDate DAY = LocalDate.parse("2026-06-03");

    /** 29 CFR 1910.134(d)(3)(i)(A) Table 1, every cell but the quarter mask's; the file names its copy. */
    @Test
    void table1() throws IOException {
        Map<String, String> rows = Map.of(
                "air_purifying negative_pressure", "air-purifying",
                "papr ", "powered",
                "sar demand", "supplied demand",
                "sar continuous_flow", "supplied continuous",
                "sar pressure_demand_or_other_positive", "supplied pressure-demand",
                "scba demand", "self-contained demand",
                "scba pressure_demand_or_other_positive", "self-contained pressure-demand");
        List<String> fromTable = new ArrayList<>();
        for (CSVRecord row : reference("osha_apf_table1.csv")) {
            String device = rows.get(row.get("type") + " " + row.get("mode"));
            assertThat(device).isNotNull();
            add(fromTable, device + " half", row.get("half_mask"));
            add(fromTable, device + " full", row.get("full_facepiece"));
            String helmet = row.get("helmet_hood");
            if (helmet.equals("25/1000")) {
                add(fromTable, device + " helmet/hood", "25");
                add(fromTable, device + " helmet/hood with evidence", "1000");
            } else {
                add(fromTable, device + " helmet/hood", helmet);
            }
            add(fromTable, device + " loose-fitting facepiece", row.get("loose_fitting"));
        }
        assertThat(fromTable).hasSize(21);
        // row 3 once more, for the device that also carries its own escape air, (d)(2)(i)(B)
        fromTable.add("supplied pressure-demand full with escape supply = 1000");
        assertThat(US.factors().stream()
                        .map(factor ->
                                factor.deviceClass() + " = " + factor.factor().toPlainString()))
                .containsExactlyInAnyOrderElementsOf(fromTable);
        assertThat(US.factors()).allMatch(factor -> factor.provenance().mark() == Mark.VERIFIED);
    }

    private static void add(List<String> all, String deviceClass, String factor) {
        if (!factor.isBlank()) {
            all.add(deviceClass + " = " + factor);
        }
    }

    /** 29 CFR 1910.134(d)(2)(i): these two and no other. HSE's public page: only breathing apparatus; which one is from memory. */
    @Test
    void classesForAnImmediatelyDangerousAir() {
        assertThat(US.dangerousAir())
                .extracting(DangerousAirRule::deviceClass)
                .containsExactly(
                        "self-contained pressure-demand full", "supplied pressure-demand full with escape supply");
        assertThat(US.dangerousAir("self-contained pressure-demand full", DAY))
                .hasValueSatisfying(rule -> assertThat(rule.provenance().mark()).isEqualTo(Mark.VERIFIED));
        for (String other : List.of(
                "self-contained demand full",
                "self-contained pressure-demand helmet/hood",
                "supplied pressure-demand full",
                "supplied continuous full",
                "powered full")) {
            assertThat(US.dangerousAir(other, DAY)).as(other).isEmpty();
        }
        assertThat(UK.dangerousAir())
                .extracting(DangerousAirRule::deviceClass)
                .containsExactly("self-contained positive");
        assertThat(UK.dangerousAir().get(0).provenance().mark()).isEqualTo(Mark.FROM_MEMORY);
    }

    /** 1910.134(n): Table 1 came into force on 22 November 2006; before, nothing may be judged by it. */
    @Test
    void table1HasABeginning() {
        assertThat(US.factor("powered full", LocalDate.parse("2006-11-21"))).isEmpty();
        assertThat(US.factor("powered full", LocalDate.parse("2006-11-22"))).isPresent();
    }

    /** HSG53, 4th edition 2013, as restated; TM, airline and apparatus rows from memory, and marked so. */
    @ParameterizedTest
    @CsvSource({
        "FFP1, 4, RESTATED",
        "FFP2, 10, RESTATED",
        "FFP3, 20, RESTATED",
        "half P1, 4, RESTATED",
        "half P2, 10, RESTATED",
        "half P3, 20, RESTATED",
        "half gas, 10, RESTATED",
        "half gas P3, 10, RESTATED",
        "full P2, 10, RESTATED",
        "full P3, 40, RESTATED",
        "full gas, 20, RESTATED",
        "full gas P3, 20, RESTATED",
        "TH1, 10, RESTATED",
        "TH2, 20, RESTATED",
        "TH3, 40, RESTATED",
        "TM1 full, 10, FROM_MEMORY",
        "TM2 full, 20, FROM_MEMORY",
        "TM3 full, 40, FROM_MEMORY",
        "TM1 half, 10, FROM_MEMORY",
        "TM2 half, 20, FROM_MEMORY",
        "TM3 half, 20, FROM_MEMORY",
        "LDH1, 10, FROM_MEMORY",
        "LDH2, 20, FROM_MEMORY",
        "LDH3, 40, FROM_MEMORY",
        "14594-1 hood, 10, FROM_MEMORY",
        "14594-2 hood, 20, FROM_MEMORY",
        "14594-3 hood, 40, FROM_MEMORY",
        "14594-4 hood, 40, FROM_MEMORY",
        "airline constant flow full, 40, FROM_MEMORY",
        "airline positive demand full, 2000, FROM_MEMORY",
        "self-contained positive, 2000, FROM_MEMORY"
    })
    void ukFactors(String deviceClass, BigDecimal factor, Mark mark) {
        ProtectionFactor found = UK.factor(deviceClass, DAY).orElseThrow();
        assertThat(found.factor()).isEqualByComparingTo(factor);
        assertThat(found.provenance().mark()).isEqualTo(mark);
    }

    @Test
    void classOfAnotherRuleSetIsUnknown() {
        assertThat(US.factor("TH3", DAY)).isEmpty();
        assertThat(UK.factor("powered helmet/hood", DAY)).isEmpty();
    }

    /** US: 29 CFR 1910.134(f)(7). UK: INDG479, from memory. */
    @ParameterizedTest
    @CsvSource({
        "HALF_MASK, 100, 100", "FILTERING_FACEPIECE, 100, 100", "POWERED_HALF_MASK, 100, 100",
        "FULL_MASK, 500, 2000", "POWERED_FULL_MASK, 500, 2000", "AIRLINE_FULL_MASK, 500, 2000"
    })
    void fitTestLevels(InterfaceType type, BigDecimal us, BigDecimal uk) {
        assertThat(US.fitTest(type, DAY).orElseThrow().level()).isEqualByComparingTo(us);
        assertThat(US.fitTest(type, DAY).orElseThrow().reading()).isEqualTo(FitTestRule.Reading.OVERALL);
        assertThat(UK.fitTest(type, DAY).orElseThrow().level()).isEqualByComparingTo(uk);
        assertThat(UK.fitTest(type, DAY).orElseThrow().reading()).isEqualTo(FitTestRule.Reading.EVERY_EXERCISE);
    }

    /** 29 CFR 1910.134(f)(6), (f)(8): a qualitative test bounds a filtering full mask to 10, a powered one not; INDG479 for the UK. */
    @Test
    void qualitativeTests() {
        assertThat(US.fitTest(InterfaceType.FULL_MASK, DAY).orElseThrow().qualitativeUpTo())
                .isEqualByComparingTo("10");
        assertThat(US.fitTest(InterfaceType.POWERED_FULL_MASK, DAY)
                        .orElseThrow()
                        .qualitativeUpTo())
                .isNull();
        assertThat(UK.fitTest(InterfaceType.FULL_MASK, DAY).orElseThrow().qualitative())
                .isEqualTo(FitTestRule.Qualitative.NOT_ALLOWED);
    }

    @Test
    void hoodsAreExemptFromTheFitTestButPoweredMasksAreNot() {
        for (RuleSet set : List.of(UK, US)) {
            assertThat(set.fitTest(InterfaceType.POWERED_HOOD, DAY)).isEmpty();
            assertThat(set.rules(RequirementKind.FIT_TEST, InterfaceType.POWERED_HOOD, DAY))
                    .extracting(Rule::effect)
                    .containsExactly(Effect.NOT_REQUIRED);
            assertThat(set.rules(RequirementKind.FIT_TEST, InterfaceType.POWERED_FULL_MASK, DAY))
                    .extracting(Rule::effect)
                    .contains(Effect.REQUIRED)
                    .doesNotContain(Effect.NOT_REQUIRED);
        }
    }

    private static List<PublishedLimit> limits(RuleSet set, PublishedLimit.Quantity quantity, InterfaceType type) {
        return set.limits(quantity, DAY).stream()
                .filter(limit -> limit.interfaces().contains(type))
                .toList();
    }

    /** 42 CFR 84.175(b), 84.179(a): 115 L/min tight-fitting, 170 L/min loose-fitting, blown and supplied alike. */
    @ParameterizedTest
    @CsvSource({
        "POWERED_HOOD, 170",
        "AIRLINE_HOOD, 170",
        "POWERED_HALF_MASK, 115",
        "POWERED_FULL_MASK, 115",
        "AIRLINE_FULL_MASK, 115"
    })
    void approvalFlowFloors(InterfaceType type, BigDecimal floor) {
        List<PublishedLimit> limits = limits(US, PublishedLimit.Quantity.APPROVAL_FLOW, type);
        assertThat(limits).hasSize(1);
        assertThat(limits.get(0).allows(floor)).isTrue();
        assertThat(limits.get(0).allows(floor.subtract(new BigDecimal("0.1")))).isFalse();
        assertThat(limits(UK, PublishedLimit.Quantity.APPROVAL_FLOW, type)).isEmpty();
    }

    /** 29 CFR 1910.134(b), "below 19.5 %", and (i)(1)(ii)(A); EN 12021:2014, 21 ± 1 %, as restated. */
    @Test
    void oxygen() {
        PublishedLimit place = limits(US, PublishedLimit.Quantity.OXYGEN_AT_PLACE, InterfaceType.POWERED_HOOD)
                .get(0);
        assertThat(place.allows(new BigDecimal("19.5"))).isTrue();
        assertThat(place.allows(new BigDecimal("19.4"))).isFalse();
        PublishedLimit supplied = limits(US, PublishedLimit.Quantity.SUPPLIED_OXYGEN, InterfaceType.AIRLINE_HOOD)
                .get(0);
        assertThat(supplied.allows(new BigDecimal("23.5"))).isTrue();
        assertThat(supplied.allows(new BigDecimal("23.6"))).isFalse();
        assertThat(limits(UK, PublishedLimit.Quantity.SUPPLIED_OXYGEN, InterfaceType.AIRLINE_HOOD)
                        .get(0)
                        .allows(new BigDecimal("22.1")))
                .isFalse();
    }

    /** 29 CFR 1910.134(i)(1)(ii)(C): 10 ppm; EN 12021:2014: 5 ppm, as restated. */
    @Test
    void carbonMonoxide() {
        BigDecimal seven = new BigDecimal("7");
        PublishedLimit.Quantity quantity = PublishedLimit.Quantity.SUPPLIED_CARBON_MONOXIDE;
        assertThat(limits(US, quantity, InterfaceType.AIRLINE_HOOD)).allMatch(limit -> limit.allows(seven));
        assertThat(limits(UK, quantity, InterfaceType.AIRLINE_HOOD)).noneMatch(limit -> limit.allows(seven));
    }

    /** L5 paragraphs 181 and 182: monthly, unused never over three months. 1910.134(h)(3)(i): none for routine, monthly for emergency. */
    @Test
    void examinations() {
        assertThat(UK.rules(RequirementKind.EXAMINATION, InterfaceType.POWERED_HOOD, DAY))
                .extracting(rule -> rule.when() + " " + rule.term())
                .containsExactly("WORN_SINCE P1M", "UNUSED_SINCE P3M");
        assertThat(UK.rules(RequirementKind.EXAMINATION, InterfaceType.FILTERING_FACEPIECE, DAY))
                .extracting(Rule::effect)
                .containsExactly(Effect.NOT_REQUIRED);
        assertThat(US.rules(RequirementKind.EXAMINATION, InterfaceType.POWERED_HOOD, DAY))
                .extracting(rule -> rule.effect() + " " + rule.when() + " " + rule.term())
                .containsExactly("NOT_REQUIRED ALWAYS null", "REQUIRED EMERGENCY_SET P1M", "REQUIRED ESCAPE_ONLY null");
    }

    /**
     * Where two rules speak of one requirement of one type under one circumstance, the one for fewer types counts: 1910.134(h)(3)(iii)
     * for apparatus "in addition to" (i). A second such pair would be looked at here before it counts.
     */
    @Test
    void onlyTheRuleForApparatusStandsBesideOneForAllTypes() {
        List<String> beside = new ArrayList<>();
        for (RuleSet set : List.of(UK, US)) {
            for (RequirementKind kind : RequirementKind.values()) {
                for (InterfaceType type : InterfaceType.values()) {
                    set.rules(kind, type, DAY).stream().collect(Collectors.groupingBy(Rule::when)).values().stream()
                            .filter(rules -> rules.size() > 1)
                            .forEach(rules -> rules.forEach(rule -> beside.add(type + " " + rule.code() + " "
                                    + rule.interfaces().size())));
                }
            }
        }
        assertThat(beside)
                .containsExactly(
                        "BREATHING_APPARATUS us-federal.examination.routine 10",
                        "BREATHING_APPARATUS us-federal.examination.apparatus 1");
    }

    /** 1910.134(f)(2), (k)(5): annually. The two letters differ by a day over 29 February 2028. */
    @Test
    void annualFollowsTheReadingThatTheSiteTook() {
        Rule training = US.rules(RequirementKind.TRAINING, InterfaceType.POWERED_HOOD, DAY)
                .get(0);
        assertThat(training.decision()).isEqualTo("year.reading");
        LocalDate trained = LocalDate.parse("2027-03-01");
        assertThat(training.term().lastDay(trained, YearReading.AT_MOST_365_DAYS))
                .isEqualTo("2028-02-29");
        assertThat(training.term().lastDay(trained, YearReading.ANNIVERSARY)).isEqualTo("2028-03-01");
        assertThat(US.decision("year.reading").orElseThrow().choices())
                .containsExactlyInAnyOrderElementsOf(Arrays.stream(YearReading.values())
                        .map(YearReading::code)
                        .toList());
    }

    /** 1910.134(e)(1) has no repeat; the proposal 90 FR 28463 is noted and changes nothing. */
    @Test
    void medicalEvaluationStillHoldsForHoods() {
        assertThat(US.rules(RequirementKind.MEDICAL, InterfaceType.POWERED_HOOD, DAY))
                .filteredOn(rule -> rule.when() == Circumstance.ALWAYS)
                .extracting(rule -> rule.effect() + " " + rule.term())
                .containsExactly("REQUIRED null");
        assertThat(US.decision("medical.interval").orElseThrow().byDefault()).isEqualTo("none");
        assertThat(US.notes()).anyMatch(note -> note.source().startsWith("90 FR 28463"));
    }

    /** Control of Asbestos Regulations 2012, regulation 22: two years licensed, three years notifiable. */
    @Test
    void asbestosMedicals() {
        assertThat(UK.rules(RequirementKind.MEDICAL, InterfaceType.POWERED_HOOD, DAY))
                .extracting(rule -> rule.when() + " " + rule.effect() + " " + rule.term())
                .containsExactly(
                        "LICENSED_ASBESTOS REQUIRED P24M",
                        "NOTIFIABLE_ASBESTOS REQUIRED P36M",
                        "ALWAYS SITE_DECIDES null");
    }

    /** COSHH 2002 regulations 9(4), 10, 11(3); 29 CFR 1910.1020(d)(1), 1910.134(m)(2)(ii). */
    @Test
    void retentionAnchors() {
        assertThat(anchors(UK, Kind.EXAMINATION)).containsExactly("ALL RECORD_DAY P5Y VERIFIED");
        assertThat(anchors(UK, Kind.EXPOSURE_RESULT))
                .containsExactly(
                        "IDENTIFIES_A_PERSON LAST_ENTRY P40Y VERIFIED", "IDENTIFIES_NOBODY LAST_ENTRY P5Y VERIFIED");
        assertThat(anchors(UK, Kind.MEDICAL_OUTCOME)).containsExactly("ALL LAST_ENTRY P40Y VERIFIED");
        assertThat(anchors(UK, Kind.SYMPTOM_REPORT)).containsExactly("ALL LAST_ENTRY P40Y VERIFIED");
        assertThat(anchors(US, Kind.MEDICAL_OUTCOME)).containsExactly("ALL EMPLOYMENT_END P30Y VERIFIED");
        assertThat(anchors(US, Kind.SYMPTOM_REPORT)).containsExactly("ALL EMPLOYMENT_END P30Y VERIFIED");
        assertThat(anchors(US, Kind.EXPOSURE_RESULT)).containsExactly("ALL RECORD_DAY P30Y VERIFIED");
        assertThat(anchors(US, Kind.FIT_TEST)).containsExactly("ALL NEXT_OF_KIND null VERIFIED");
        assertThat(UK.retention(Kind.FIT_TEST)).extracting(RetentionRule::span).contains(Period.ofYears(5));
    }

    private static List<String> anchors(RuleSet set, Kind kind) {
        return set.retention(kind).stream()
                .map(rule -> "%s %s %s %s"
                        .formatted(
                                rule.which(),
                                rule.from(),
                                rule.span(),
                                rule.provenance().mark()))
                .toList();
    }

    /** Nobody is left without an answer: each kind of requirement is spoken of for at least one interface type. */
    @ParameterizedTest
    @EnumSource(RequirementKind.class)
    void everyRequirementIsSpokenOf(RequirementKind kind) {
        for (RuleSet set : List.of(UK, US)) {
            assertThat(Stream.of(InterfaceType.values()).flatMap(type -> set.rules(kind, type, DAY).stream()))
                    .isNotEmpty();
        }
    }

    @Test
    void everyTightFittingMaskHasAPassLevelAndNoHoodHas() {
        for (InterfaceType type : InterfaceType.values()) {
            assertThat(US.fitTest(type, DAY).isPresent()).isEqualTo(type.isTightFitting());
            assertThat(UK.fitTest(type, DAY).isPresent()).isEqualTo(type.isTightFitting());
        }
    }

    @Test
    void everyCodeNamesItsRuleSetAndNothingIsInvented() {
        for (RuleSet set : List.of(UK, US)) {
            assertThat(set.rules()).allMatch(rule -> rule.code().startsWith(set.code() + "."));
            assertThat(set.limits()).allMatch(limit -> limit.code().startsWith(set.code() + "."));
            assertThat(set.retention()).allMatch(rule -> rule.code().startsWith(set.code() + ".keep."));
            assertThat(set.rules()).noneMatch(rule -> rule.provenance().mark() == Mark.INVENTED);
            assertThat(set.rules())
                    .filteredOn(rule -> rule.provenance().source().startsWith("Common practice"))
                    .allMatch(rule -> rule.provenance().mark() == Mark.COMMON_PRACTICE);
        }
    }

    /** The site's answers and their defaults; all but the readings of a year are common practice, no source. */
    @Test
    void decisionsAndDefaults() {
        assertThat(UK.decision("notice.period").orElseThrow().byDefault()).isEqualTo("P30D");
        assertThat(UK.decision("late.tolerance").orElseThrow().byDefault()).isEqualTo("P0D");
        assertThat(UK.decision("evidence.date-only").orElseThrow().byDefault()).isEqualTo("next-day");
        assertThat(UK.decision("flow.uncertainty-assumed").orElseThrow().byDefault())
                .isEqualTo("0");
        assertThat(UK.decision("pre-use-check.good-for").orElseThrow().byDefault())
                .isEqualTo("PT12H");
        assertThat(UK.decision("shift.ends-after").orElseThrow().byDefault()).isEqualTo("PT8H");
        assertThat(UK.decision("fit-test.accept-revision/M20/B").orElseThrow().byDefault())
                .isEqualTo("no");
        assertThat(UK.decision("skin-contact.hair-accepted/H20-C").orElseThrow().byDefault())
                .isEqualTo("no");
        assertThat(UK.decision("wear.longest/HALF_MASK").orElseThrow().byDefault())
                .isNull();
        assertThat(US.decision("air.interval").orElseThrow().byDefault()).isNull();
        assertThat(US.decision("year.reading").orElseThrow().byDefault()).isEqualTo("at-most-365-days");
        assertThat(UK.decision("year.reading").orElseThrow().choices()).containsExactly("calendar-months");
        assertThat(Stream.of(UK, US).flatMap(set -> set.decisions().stream()))
                .allMatch(decision -> decision.byDefault() == null || decision.mark() != null);
    }

    /** What no rule refers to and no judgement asks for would be a question whose answer decides nothing. */
    @Test
    void everyDecisionDecidesSomething() throws IOException {
        Set<String> asked = Stream.of(UK, US)
                .flatMap(set -> set.rules().stream())
                .map(Rule::decision)
                .filter(Objects::nonNull)
                .collect(Collectors.toSet());
        StringBuilder code = new StringBuilder();
        try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
            for (Path file :
                    files.filter(one -> one.toString().endsWith(".java")).toList()) {
                code.append(Files.readString(file));
            }
        }
        assertThat(Stream.of(UK, US)
                        .flatMap(set -> set.decisions().stream())
                        .map(SiteDecisionRule::key)
                        .filter(key -> !asked.contains(key) && code.indexOf('"' + key + '"') < 0))
                .isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "fit-test.interval; P24M; true",
                "fit-test.interval; P2Y; true",
                "fit-test.interval; none; false",
                "fit-test.interval; 24; false",
                "fit-test.interval; P1Y2M; false",
                "fit-test.interval; P0M; false",
                "medical.interval; none; true",
                "medical.interval; P3Y; true",
                "medical.interval; never; false",
                "late.tolerance; P0D; true",
                "late.tolerance; P1M; false",
                "late.tolerance; P-1D; false",
                "notice.period; P0D; false",
                "pre-use-check.good-for; PT90M; true",
                "pre-use-check.good-for; PT0S; false",
                "pre-use-check.good-for; P1M; false",
                "flow.uncertainty-assumed; 2.5; true",
                "flow.uncertainty-assumed; 2,5; false",
                "flow.uncertainty-assumed; -1; false",
                "medical.required/POWERED_HOOD; no; true",
                "medical.required/POWERED_HOOD; perhaps; false",
                "medical.required; yes; false",
                "medical.required/HOODS; yes; false",
                "medical.required/; yes; false",
                "wear.longest/HALF_MASK; PT2H; true",
                "wear.longest/HALF_MASK; 2; false",
                "wear.longest/HALF_MASK/M; PT2H; false",
                "notice.period/HALF_MASK; P30D; false",
                "skin-contact.hair-accepted/H20-C; yes; true",
                "skin-contact.hair-accepted; yes; false",
                "fit-test.accept-revision/M20/B; yes; true",
                "fit-test.accept-revision/M20; yes; false",
                "battery.load; 0.8; true",
                "battery.load; 1; true",
                "battery.load; 80; false",
                "battery.load; 0; false",
                "air.moved-voids; yes; true",
                "air.moved-voids; Yes; false"
            })
    void decisionsAreTakenInTheirFormOnly(String key, String value, boolean good) {
        SiteDecisionRule rule = UK.decision(key).orElseThrow();
        if (good) {
            rule.check(key, value);
        } else {
            assertThatThrownBy(() -> rule.check(key, value))
                    .isInstanceOf(Refused.class)
                    .hasMessageContaining("rules.decision.");
        }
    }

    private static List<CSVRecord> reference(String name) throws IOException {
        try (InputStream file = PublishedRuleSetsTest.class.getResourceAsStream("/reference/" + name);
                InputStreamReader reader = new InputStreamReader(file, StandardCharsets.UTF_8)) {
            return CSVFormat.RFC4180
                    .builder()
                    .setCommentMarker('#')
                    .setHeader()
                    .setSkipHeaderRecord(true)
                    .get()
                    .parse(reader)
                    .getRecords();
        }
    }

    private static RuleSet read(String name) {
        try (InputStream file = PublishedRuleSetsTest.class.getResourceAsStream("/rule-sets/" + name + ".yaml")) {
            return RuleSetFile.parse(file);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }
}
