package org.hoodkeeper.web.hygienist;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.List;
import java.util.stream.Collectors;
import org.hoodkeeper.calculation.Proportion;
import org.hoodkeeper.reporting.BasisMove;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
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
        List<String> codes = sheet.models().stream()
                .filter(line -> line.stand().isEnough())
                .map(TaskSheet.ModelLine::code)
                .toList();
        return codes.isEmpty() ? words.say("exposureSheet.enough.none") : String.join(", ", codes);
    }

    /** Which statistic decides, and who said so. */
    public String statistic(TaskSheet sheet) {
        boolean decided = sheet.decided() != null && sheet.decided().record() != null;
        return words.say(
                decided ? "exposureSheet.statistic.decided" : "exposureSheet.statistic.byDefault",
                words.say("exposureSheet.statistic." + sheet.statistic()));
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
