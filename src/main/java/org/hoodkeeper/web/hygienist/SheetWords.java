package org.hoodkeeper.web.hygienist;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.hoodkeeper.assessment.AirPart;
import org.hoodkeeper.assessment.Weighed;
import org.hoodkeeper.calculation.Proportion;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.reporting.BasisMove;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Words and roundings of the assessment sheet, for its templates. */
@Component("sheetWords")
public class SheetWords {

    private final Words words;
    private final Show show;
    private final ReasonWords reasons;

    SheetWords(Words words, Show show, ReasonWords reasons) {
        this.reasons = reasons;
        this.words = words;
        this.show = show;
    }

    public BigDecimal shown(BigDecimal ratio) {
        return TaskSheetController.shown(ratio);
    }

    public String stated(TaskSheet sheet) {
        return sheet.stated() == null ? words.say("exposureSheet.unknown") : show.figure(shown(sheet.stated()));
    }

    public BigDecimal tenthsDown(BigDecimal factor) {
        return factor.setScale(1, RoundingMode.FLOOR);
    }

    public String span(String period) {
        return show.span(Duration.parse(period));
    }

    public String minutes(int minutes) {
        return show.span(Duration.ofMinutes(minutes));
    }

    public String enough(TaskSheet sheet) {
        return sheet.enough().isEmpty() ? words.say("exposureSheet.enough.none") : String.join(", ", sheet.enough());
    }

    /** The weakest class of the rule set that would do, with its factor. */
    public String weakest(TaskSheet sheet) {
        return sheet.classes().isEmpty()
                ? words.say("exposureSheet.weakest.none")
                : words.say(
                        "exposureSheet.weakest",
                        sheet.classes().get(0).deviceClass(),
                        sheet.classes().get(0).factor());
    }

    /** For each substance over the shift: whose figure decides, and what stands beside it. */
    public List<String> decides(TaskSheet sheet) {
        return sheet.air().stream()
                .filter(part -> part.period() == ExposureResult.Period.SHIFT)
                .map(part -> decides(sheet, part))
                .toList();
    }

    private String decides(TaskSheet sheet, AirPart part) {
        String figure = show.figure(part.value(), part.unit());
        if (part.origin() != AirPart.Origin.ASSESSMENT) {
            String whose =
                    words.say("exposureSheet.decides." + part.origin(), part.substance(), figure, statisticName(sheet));
            return part.stated() == null
                    ? whose
                    : whose + " " + words.say("exposureSheet.decides.over", show.figure(part.stated(), part.unit()));
        }
        return sheet.weighed().stream()
                .filter(one -> one.substance().equals(part.substance()))
                .findFirst()
                .map(one -> words.say("exposureSheet.decides.ASSESSMENT", beside(sheet, one)))
                .orElseGet(() -> words.say("exposureSheet.decides.alone", part.substance(), figure));
    }

    /** What an assessment states of each substance that was sampled, beside what the results say of it. */
    public List<String> beside(TaskSheet sheet) {
        return sheet.weighed().stream().map(one -> beside(sheet, one)).toList();
    }

    private String beside(TaskSheet sheet, Weighed one) {
        String stated = one.stated() == null
                ? words.say("exposureSheet.beside.nothing")
                : show.figure(one.stated().value(), one.stated().unit());
        int count = one.results().size();
        String said;
        if (one.value() == null) {
            boolean mixed =
                    one.results().stream().anyMatch(told -> !told.fact().unit().equals(one.unit()));
            said = words.say(
                    mixed ? "exposureSheet.beside.mixed" : "exposureSheet.beside.below",
                    one.substance(),
                    stated,
                    count);
        } else {
            said = words.say(
                    "exposureSheet.beside." + one.origin(),
                    one.substance(),
                    stated,
                    show.figure(one.value(), one.unit()),
                    statisticName(sheet),
                    count);
        }
        List<String> lines = new ArrayList<>(List.of(said));
        if (!one.isComparable() && one.value() != null) {
            lines.add(words.say("exposureSheet.beside.units"));
        }
        if (one.isBelow()) {
            lines.add(words.say("exposureSheet.beside.isBelow"));
        }
        if (one.leftOut()) {
            lines.add(words.say("exposureSheet.beside.leftOut"));
        }
        return String.join(" ", lines);
    }

    /** What the assessment's figure decides although more was measured, with its reason: stands over the sheet. */
    public List<String> below(TaskSheet sheet) {
        List<String> below = sheet.weighed().stream()
                .filter(one -> one.isBelow() && isDecidedByAssessment(sheet.shift(one.substance())))
                .map(one -> beside(sheet, one))
                .toList();
        if (below.isEmpty()) {
            return below;
        }
        List<String> lines = new ArrayList<>(below);
        lines.add(
                sheet.whyBelow() == null
                        ? words.say("exposureSheet.whyBelow.none")
                        : words.say("exposureSheet.whyBelow.because", sheet.whyBelow()));
        return lines;
    }

    /** What an assessment leaves out of the air is decided by it too. */
    private static boolean isDecidedByAssessment(@Nullable AirPart part) {
        return part == null || part.origin() == AirPart.Origin.ASSESSMENT;
    }

    /** Why the assessor states less than the results say; none where nothing lies below them. */
    public @Nullable String whyBelow(TaskSheet sheet) {
        if (sheet.weighed().stream().noneMatch(Weighed::isBelow)) {
            return sheet.whyBelow();
        }
        return sheet.whyBelow() == null ? words.say("exposureSheet.whyBelow.none") : sheet.whyBelow();
    }

    /** A peak that is set against nothing, so that nobody takes silence for a pass. */
    public String unjudged(TaskSheet.Unjudged one) {
        return words.say(
                "exposureSheet.unjudged",
                one.substance(),
                words.say("exposure.period." + one.period()),
                one.count(),
                show.figure(one.highest().fact().value(), one.highest().fact().unit()),
                show.instant(one.highest().from()));
    }

    /** What became of a result that was weighed. */
    public String replaced(TaskSheet.Replaced one) {
        return words.say(
                one.withdrawn() ? "exposureSheet.replaced.withdrawn" : "exposureSheet.replaced.corrected",
                one.substance(),
                show.figure(one.value(), one.unit()),
                show.instant(one.at()),
                show.instant(one.replacedAt()));
    }

    private String statisticName(TaskSheet sheet) {
        return words.say("exposureSheet.statistic." + sheet.statistic());
    }

    /** Which statistic decides, and who said so. */
    public String statistic(TaskSheet sheet) {
        boolean decided = sheet.decided() != null && sheet.decided().record() != null;
        return words.say(
                decided ? "exposureSheet.statistic.decided" : "exposureSheet.statistic.byDefault",
                statisticName(sheet));
    }

    /** What was seen on rounds, and whether lifting is the trouble or the class. */
    public String practice(TaskSheet sheet) {
        Proportion seen = sheet.seen();
        if (seen == null) {
            return words.say("exposureSheet.practice.none");
        }
        String said = words.say(
                "exposureSheet.practice.seen",
                seen.seen(),
                seen.of(),
                percent(seen.share(), RoundingMode.HALF_UP),
                percent(seen.lower(), RoundingMode.FLOOR),
                percent(seen.upper(), RoundingMode.CEILING));
        List<String> onPaper = sheet.models().stream()
                .filter(line -> line.stand().isEnough()
                        && line.inPractice() != null
                        && sheet.ratio() != null
                        && line.inPractice().compareTo(sheet.ratio()) < 0)
                .map(line -> words.say(
                        "exposureSheet.practice.model",
                        line.code(),
                        tenthsDown(line.inPractice()),
                        line.unwornMinutes()))
                .toList();
        return onPaper.isEmpty()
                ? said
                : said + " " + words.say("exposureSheet.practice.short", String.join("; ", onPaper));
    }

    /** What somebody may do with one model, or all that stands in the way of it. */
    public String way(BasisMove.Way way) {
        return words.say(
                "basisMove.step." + way.step(),
                way.model(),
                way.others().stream()
                        .map(reason -> reasons.requirement(reason) + ": " + reasons.why(reason))
                        .collect(Collectors.joining(" ")));
    }

    static BigDecimal percent(double share, RoundingMode rounding) {
        return BigDecimal.valueOf(share * 100).setScale(1, rounding);
    }
}
