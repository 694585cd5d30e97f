package org.hoodkeeper.assessment;

import java.util.List;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.WorkerId;

/**
 * What is known of a worker. Every list is newest first by when it was true, holds what was told by the question's moment and
 * nothing that had been corrected or withdrawn by then. A list may leave out what cannot decide.
 */
public record WorkerFile(
        WorkerId id,
        List<Told<Training>> trainings,
        List<Told<MedicalOutcome>> medical,
        List<Told<SymptomReport>> symptoms,
        List<Told<FitTest>> fitTests,
        List<Told<Observation>> observations,
        List<Told<Posting>> postings,
        List<Told<Hold>> holds,
        List<Told<Wear>> wears,
        List<Told<Booking>> bookings) {}
