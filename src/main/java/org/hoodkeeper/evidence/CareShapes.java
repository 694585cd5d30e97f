package org.hoodkeeper.evidence;

import static org.hoodkeeper.evidence.Shape.day;
import static org.hoodkeeper.evidence.Shape.name;
import static org.hoodkeeper.evidence.Shape.note;
import static org.hoodkeeper.evidence.Shape.positive;
import static org.hoodkeeper.evidence.Shape.present;
import static org.hoodkeeper.evidence.Shape.within;

import java.math.BigDecimal;
import org.hoodkeeper.facts.Acceptance;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.Particulars;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.facts.StockCount;
import org.hoodkeeper.facts.StockReceipt;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** Shapes of the records about a set, an instrument or an air supply. */
final class CareShapes {

    private CareShapes() {}

    static void flowCheck(FlowCheck check) {
        reading(check.reading(), check.celsius(), check.hectopascals());
        present(check.outcome(), "flowCheck.outcome.missing");
    }

    /** 600 L/min is above what any belt blower gives; 1750 is 175.0 with its mark lost. */
    static void reading(
            @Nullable BigDecimal litresPerMinute, @Nullable BigDecimal celsius, @Nullable BigDecimal hectopascals) {
        present(litresPerMinute, "flowCheck.reading.missing");
        within(litresPerMinute, "0", "600", "flowCheck.reading.range");
        within(celsius, "-40", "60", "flowCheck.celsius.range");
        within(hectopascals, "500", "1100", "flowCheck.hectopascals.range");
    }

    static void preUseCheck(PreUseCheck check) {
        if (check.items().isEmpty()) {
            throw new Refused("preUseCheck.items.missing");
        }
        within(check.reading(), "0", "600", "preUseCheck.reading.range");
        within(check.chargePercent(), 0, 100, "preUseCheck.chargePercent.range");
        note(check.note(), "note");
    }

    static void examination(Examination examination) {
        present(examination.outcome(), "examination.outcome.missing");
        within(examination.reading(), "0", "600", "examination.reading.range");
        if (examination.reading() != null && examination.indicator() == null) {
            throw new Refused("examination.indicator.missing");
        }
        name(examination.examiner(), "examiner");
        note(examination.note(), "note");
    }

    static void cleaning(Cleaning cleaning) {
        present(cleaning.method(), "cleaning.method.missing");
        if (cleaning.method() == Cleaning.Method.WASH_AND_DISINFECT) {
            present(cleaning.product(), "cleaning.product.missing");
            present(cleaning.strength(), "cleaning.strength.missing");
            present(cleaning.strengthBasis(), "cleaning.strengthBasis.missing");
            present(cleaning.wetSeconds(), "cleaning.wetSeconds.missing");
        }
        name(cleaning.product(), "product");
        positive(cleaning.strength(), "1000000", "cleaning.strength.range");
        name(cleaning.strengthBasis(), "strengthBasis");
        within(cleaning.wetSeconds(), 1, 86_400, "cleaning.wetSeconds.range");
        within(cleaning.celsius(), "0", "100", "cleaning.celsius.range");
    }

    static void partChange(PartChange change) {
        present(change.part(), "partChange.part.missing");
        name(change.part(), "part");
        name(change.lot(), "lot");
        name(change.serial(), "serial");
        name(change.fitter(), "fitter");
        day(change.madeOn(), "partChange.madeOn.range");
    }

    static void defect(Defect defect) {
        boolean nothingSaid = defect.note() == null || defect.note().isBlank();
        if (defect.step() == Defect.Step.FOUND && defect.part() == null && nothingSaid) {
            throw new Refused("defect.note.missing");
        }
        name(defect.part(), "part");
        note(defect.note(), "note");
    }

    static void calibration(Calibration calibration) {
        present(calibration.outcome(), "calibration.outcome.missing");
        present(calibration.factor(), "calibration.factor.missing");
        within(calibration.factor(), "0.5", "2", "calibration.factor.range");
        within(calibration.uncertainty(), "0", "100", "calibration.uncertainty.range");
        within(calibration.asFoundFactor(), "0.5", "2", "calibration.asFoundFactor.range");
        present(calibration.celsius(), "calibration.celsius.missing");
        within(calibration.celsius(), "-40", "60", "calibration.celsius.range");
        present(calibration.hectopascals(), "calibration.hectopascals.missing");
        within(calibration.hectopascals(), "500", "1100", "calibration.hectopascals.range");
        present(calibration.lastDay(), "calibration.lastDay.missing");
        day(calibration.lastDay(), "calibration.lastDay.range");
        name(calibration.certificate(), "certificate");
    }

    /** Two days are longer than any battery of a blower runs. */
    static void batteryTest(BatteryTest test) {
        within(test.minutes(), 1, 2_880, "batteryTest.minutes.range");
        name(test.serial(), "serial");
        name(test.tester(), "tester");
    }

    static void purifier(PurifierTag tag) {
        present(tag.changedBy(), "purifier.changedBy.missing");
        name(tag.changedBy(), "changedBy");
        day(tag.nextOn(), "purifier.nextOn.range");
    }

    static void particulars(Particulars particulars) {
        present(particulars.employer(), "particulars.employer.missing");
        name(particulars.employer(), "employer");
        present(particulars.address(), "particulars.address.missing");
        note(particulars.address(), "address");
        particulars.makers().values().forEach(maker -> name(maker, "maker"));
    }

    static void airTest(AirTest test) {
        present(test.outcome(), "airTest.outcome.missing");
        present(test.edition(), "airTest.edition.missing");
        name(test.edition(), "edition");
        within(test.oxygenPercent(), "0", "100", "airTest.oxygenPercent.range");
        within(test.carbonMonoxidePpm(), "0", "10000", "airTest.carbonMonoxidePpm.range");
        within(test.carbonDioxidePpm(), "0", "100000", "airTest.carbonDioxidePpm.range");
        within(test.oilMgPerM3(), "0", "1000", "airTest.oilMgPerM3.range");
        within(test.dewPointCelsius(), "-100", "60", "airTest.dewPointCelsius.range");
        within(test.uncertaintyPercent(), "0", "99", "airTest.uncertaintyPercent.range");
        within(test.lowestCelsius(), "-60", "60", "airTest.lowestCelsius.range");
        within(test.litresPerMinute(), "1", "100000", "airTest.litresPerMinute.range");
        name(test.tester(), "tester");
    }

    /** A hundred thousand pieces are more than any store takes in at once. */
    static void stockReceipt(StockReceipt receipt) {
        within(receipt.pieces(), 1, 100_000, "stockReceipt.pieces.range");
        name(receipt.lot(), "lot");
        name(receipt.delivery(), "delivery");
        day(receipt.lastDay(), "stockReceipt.lastDay.range");
        day(receipt.orderedOn(), "stockReceipt.orderedOn.range");
    }

    static void stockUse(StockUse use) {
        within(use.pieces(), 1, 100_000, "stockUse.pieces.range");
        present(use.use(), "stockUse.use.missing");
        name(use.lot(), "lot");
    }

    static void stockCount(StockCount count) {
        within(count.pieces(), 0, 100_000, "stockCount.pieces.range");
        name(count.lot(), "lot");
        day(count.lastDay(), "stockCount.lastDay.range");
    }

    static void guided(GuidedWork work) {
        present(work.guide(), "guide.guide.missing");
        if (work.answers().isEmpty()) {
            throw new Refused("guide.answers.missing");
        }
        note(work.note(), "note");
    }

    static void stepWords(GuideStepWords step) {
        present(step.use(), "guideWords.use.missing");
        if (step.use() == GuideStepWords.Use.WITH_WORDS || step.use() == GuideStepWords.Use.ADDED) {
            present(step.words(), "guideWords.words.missing");
        }
        note(step.words(), "words");
        present(step.reason(), "guideWords.reason.missing");
        note(step.reason(), "reason");
    }

    static void acceptance(Acceptance acceptance) {
        if (acceptance.answers().isEmpty()) {
            throw new Refused("acceptance.answers.missing");
        }
        name(acceptance.delivery(), "delivery");
        note(acceptance.note(), "note");
    }
}
