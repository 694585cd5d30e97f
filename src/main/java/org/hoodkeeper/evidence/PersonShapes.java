package org.hoodkeeper.evidence;

import static org.hoodkeeper.evidence.Shape.day;
import static org.hoodkeeper.evidence.Shape.name;
import static org.hoodkeeper.evidence.Shape.note;
import static org.hoodkeeper.evidence.Shape.positive;
import static org.hoodkeeper.evidence.Shape.present;
import static org.hoodkeeper.evidence.Shape.within;

import java.math.BigDecimal;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.facts.Finding;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.Refused;

/** Shapes of the records about a person. */
final class PersonShapes {

    /** As in {@link org.hoodkeeper.calculation.FitFactors}. */
    private static final int FEWEST_EXERCISES = 4;

    private static final int MOST_EXERCISES = 20;

    private PersonShapes() {}

    static void training(Training training) {
        present(training.outcome(), "training.outcome.missing");
        name(training.contentVersion(), "contentVersion");
        name(training.trainer(), "trainer");
    }

    static void medical(MedicalOutcome outcome) {
        present(outcome.result(), "medical.result.missing");
        within(outcome.maxWearMinutes(), 1, 1_440, "medical.maxWearMinutes.range");
        within(outcome.maxWbgt(), "-10", "60", "medical.maxWbgt.range");
        day(outcome.reviewOn(), "medical.reviewOn.range");
        name(outcome.organisation(), "organisation");
        boolean limited = !outcome.interfaces().isEmpty()
                || outcome.maxWearMinutes() != null
                || outcome.maxWbgt() != null
                || outcome.maxWorkRate() != null
                || outcome.neverAlone();
        if (outcome.result() == MedicalOutcome.Result.FIT_WITH_LIMITS && !limited) {
            throw new Refused("medical.result.noLimit");
        }
        if (outcome.result() == MedicalOutcome.Result.FIT && limited) {
            throw new Refused("medical.result.limits");
        }
    }

    static void fitTest(FitTest test) {
        present(test.method(), "fitTest.method.missing");
        present(test.outcome(), "fitTest.outcome.missing");
        name(test.protocol(), "protocol");
        name(test.tester(), "tester");
        if (test.exercises().isEmpty()) {
            return;
        }
        int given = test.exercises().size();
        if (test.method() == FitTest.Method.QUALITATIVE) {
            throw new Refused("fitTest.exercises.qualitative", given);
        }
        if (given < FEWEST_EXERCISES || given > MOST_EXERCISES) {
            throw new Refused("fitTest.exercises.count", given, FEWEST_EXERCISES, MOST_EXERCISES);
        }
        for (BigDecimal factor : test.exercises()) {
            positive(factor, "1000000", "fitTest.exercises.range");
        }
    }

    static void booking(Booking booking) {
        present(booking.what(), "booking.what.missing");
        if (booking.what() != Kind.TRAINING
                && booking.what() != Kind.MEDICAL_OUTCOME
                && booking.what() != Kind.FIT_TEST) {
            throw new Refused("booking.what.kind");
        }
        note(booking.lateBecause(), "lateBecause");
    }

    static void symptom(SymptomReport report) {
        if (report.step() == SymptomReport.Step.REPORTED) {
            present(report.note(), "symptom.note.missing");
        }
        note(report.note(), "note");
    }

    static void observation(Observation observation) {
        present(observation.seen(), "observation.seen.missing");
        note(observation.note(), "note");
    }

    static void employment(Employment employment) {
        present(employment.change(), "employment.change.missing");
        if (employment.change() == Employment.Change.ENDED) {
            present(employment.lastDay(), "employment.lastDay.missing");
            day(employment.lastDay(), "employment.lastDay.range");
        }
    }

    static void legalHold(LegalHold hold) {
        present(hold.reason(), "legalHold.reason.missing");
        note(hold.reason(), "reason");
    }

    static void finding(Finding finding) {
        if (finding.step() == Finding.Step.ASSIGNED) {
            present(finding.owner(), "finding.owner.missing");
            present(finding.dueOn(), "finding.dueOn.missing");
            day(finding.dueOn(), "finding.dueOn.range");
        } else {
            present(finding.action(), "finding.action.missing");
        }
        note(finding.action(), "action");
    }

    static void hold(Hold hold) {
        present(hold.why(), "hold.why.missing");
        note(hold.reason(), "reason");
    }
}
