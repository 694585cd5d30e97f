package org.hoodkeeper.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.Reader;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;

class AcceptTest {

    @Test
    void aDisinfectionNeedsProductStrengthBasisAndWetTime() {
        refuses(cleaning(null, "1000", "ppm", 600), "cleaning.product.missing");
        refuses(cleaning("HYPO", null, "ppm", 600), "cleaning.strength.missing");
        refuses(cleaning("HYPO", "1000", null, 600), "cleaning.strengthBasis.missing");
        refuses(cleaning("HYPO", "1000", "ppm", null), "cleaning.wetSeconds.missing");
        refuses(cleaning("HYPO", "0", "ppm", 600), "cleaning.strength.range");
        accepts(cleaning("HYPO", "1000", "ppm", 600));
        accepts(new Cleaning(Cleaning.Method.WASH, null, null, null, null, null));
    }

    @Test
    void fitWithLimitsNamesOneAndFitNamesNone() {
        refuses(medical(MedicalOutcome.Result.FIT_WITH_LIMITS, null), "medical.result.noLimit");
        refuses(medical(MedicalOutcome.Result.FIT, 120), "medical.result.limits");
        accepts(medical(MedicalOutcome.Result.FIT_WITH_LIMITS, 120));
        accepts(medical(MedicalOutcome.Result.UNFIT, null));
    }

    @Test
    void wearInOneShiftIsAMinuteToADay() {
        refuses(medical(MedicalOutcome.Result.FIT_WITH_LIMITS, 0), "medical.maxWearMinutes.range");
        refuses(medical(MedicalOutcome.Result.FIT_WITH_LIMITS, 1_441), "medical.maxWearMinutes.range");
        accepts(medical(MedicalOutcome.Result.FIT_WITH_LIMITS, 1_440));
    }

    @Test
    void heatIsBetweenTenBelowAndSixtyDegrees() {
        refuses(wbgt("-10.1"), "condition.value.range");
        refuses(wbgt("60.1"), "condition.value.range");
        accepts(wbgt("-10"));
        accepts(wbgt("60"));
    }

    @Test
    void aFitTestHasFourToTwentyFactorsAboveNone() {
        refuses(fitTest(FitTest.Method.QUANTITATIVE, 3, "200"), "fitTest.exercises.count");
        refuses(fitTest(FitTest.Method.QUANTITATIVE, 21, "200"), "fitTest.exercises.count");
        refuses(fitTest(FitTest.Method.QUANTITATIVE, 7, "0"), "fitTest.exercises.range");
        refuses(fitTest(FitTest.Method.QUALITATIVE, 7, "200"), "fitTest.exercises.qualitative");
        accepts(fitTest(FitTest.Method.QUANTITATIVE, 7, "200"));
        accepts(fitTest(FitTest.Method.QUALITATIVE, 0, "200"));
    }

    /** 29 CFR 1910.134(f)(8). */
    @Test
    void aPoweredMaskMustSayWhetherItWasTestedInNegativeMode() {
        assertThatThrownBy(() -> Accept.negativeMode(null, InterfaceType.POWERED_FULL_MASK))
                .hasMessageStartingWith("fitTest.negativeMode.missing");
        assertThat(Accept.negativeMode(false, InterfaceType.AIRLINE_HALF_MASK)).isFalse();
        assertThat(Accept.negativeMode(null, InterfaceType.FULL_MASK)).isTrue();
        assertThatThrownBy(() -> Accept.negativeMode(true, InterfaceType.POWERED_HOOD))
                .hasMessageStartingWith("fitTest.model.loose");
    }

    @Test
    void onlyThreeThingsCanBeBooked() {
        accepts(new Booking(Kind.FIT_TEST, null));
        refuses(new Booking(Kind.FLOW_CHECK, null), "booking.what.kind");
    }

    @Test
    void aReportSaysSomethingAndAReviewNeedNot() {
        refuses(new SymptomReport(SymptomReport.Step.REPORTED, null), "symptom.note.missing");
        refuses(new SymptomReport(SymptomReport.Step.REPORTED, "x".repeat(2_001)), "record.note.long");
        accepts(new SymptomReport(SymptomReport.Step.REVIEWED, null));
    }

    @Test
    void aLimitSaysWhatStopsTheSubstance() {
        Limit bare = new Limit(new BigDecimal("0.1"), "mg/m3", null, Set.of(), false, "EH40/2005", Mark.RESTATED);
        refuses(bare, "limit.filters.missing");
        accepts(new Limit(bare.value(), "mg/m3", null, Set.of(), true, "EH40/2005", Mark.RESTATED));
        refuses(
                new Limit(bare.value(), "mg/m3", new BigDecimal("0.05"), Set.of(), true, "EH40/2005", Mark.RESTATED),
                "limit.idlh.below");
    }

    @Test
    void timesLieBetween1950And2150() {
        assertThatCode(() -> Accept.at(Instant.parse("1950-01-01T00:00:00Z"))).doesNotThrowAnyException();
        assertThatThrownBy(() -> Accept.at(Instant.parse("1949-12-31T23:59:59Z")))
                .isInstanceOf(Refused.class);
        assertThatThrownBy(() -> Accept.reviewDay(
                        new MedicalOutcome(
                                MedicalOutcome.Result.FIT,
                                Set.of(),
                                null,
                                null,
                                null,
                                false,
                                LocalDate.of(2026, 3, 1),
                                null),
                        LocalDate.of(2026, 3, 2)))
                .hasMessageStartingWith("medical.reviewOn.before");
    }

    /** Codes are handed on as bare text here, so that the search for refusals elsewhere cannot see them. */
    @Test
    void everyCodeHasItsWordsInBothLanguages() throws IOException {
        Pattern code = Pattern.compile("\"([a-z][A-Za-z]+\\.[A-Za-z]+\\.[A-Za-z]+)\"");
        Set<String> codes;
        try (Stream<Path> files = Files.list(Path.of("src/main/java/org/hoodkeeper/evidence"))) {
            codes = files.flatMap(file -> code.matcher(read(file)).results().map(found -> "refused." + found.group(1)))
                    .collect(Collectors.toSet());
        }
        Set<String> fields;
        try (Stream<Path> files = Files.list(Path.of("src/main/java/org/hoodkeeper/evidence"))) {
            fields = files.flatMap(file -> Pattern.compile("\\b(?:name|note)\\([^;\"]+, \"(\\w+)\"\\)")
                            .matcher(read(file))
                            .results()
                            .map(found -> "refused.record." + found.group(1) + ".long"))
                    .collect(Collectors.toSet());
        }
        assertThat(codes).hasSizeGreaterThan(80);
        assertThat(fields).hasSizeGreaterThan(15);
        for (String language : List.of("", "_es")) {
            Properties words = new Properties();
            try (Stream<Path> files = Files.list(Path.of("src/main/resources/messages"))) {
                for (Path file : files.filter(one -> isOf(one, language)).toList()) {
                    try (Reader in = Files.newBufferedReader(file)) {
                        words.load(in);
                    }
                }
            }
            codes.removeIf(one -> one.startsWith("refused.flow.") || one.equals("refused.unknown"));
            assertThat(words.stringPropertyNames()).containsAll(codes).containsAll(fields);
        }
    }

    private static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static void refuses(Fact fact, String code) {
        assertThatThrownBy(() -> Accept.fact(fact)).isInstanceOf(Refused.class).hasMessageStartingWith(code + " ");
    }

    private static void accepts(Fact fact) {
        assertThatCode(() -> Accept.fact(fact)).doesNotThrowAnyException();
    }

    private static Cleaning cleaning(String product, String strength, String basis, Integer wetSeconds) {
        return new Cleaning(
                Cleaning.Method.WASH_AND_DISINFECT,
                product,
                strength == null ? null : new BigDecimal(strength),
                basis,
                wetSeconds,
                null);
    }

    private static MedicalOutcome medical(MedicalOutcome.Result result, Integer minutes) {
        return new MedicalOutcome(result, Set.of(), minutes, null, null, false, null, null);
    }

    private static MeasuredCondition wbgt(String celsius) {
        return new MeasuredCondition(MeasuredCondition.Quantity.WBGT, new BigDecimal(celsius));
    }

    private static FitTest fitTest(FitTest.Method method, int exercises, String factor) {
        List<BigDecimal> factors =
                Stream.generate(() -> new BigDecimal(factor)).limit(exercises).toList();
        return new FitTest(method, null, factors, Outcome.PASS, true, null);
    }

    private static boolean isOf(Path file, String language) {
        return language.isEmpty() != file.toString().endsWith("_es.properties");
    }
}
