package org.hoodkeeper.assessment;

import java.util.List;
import java.util.Map;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.SetId;

/**
 * What is known of a set; lists as in {@link WorkerFile}.
 *
 * @param washes every step of the batches that it was stripped for
 * @param calibrations of the instruments that its checks name
 * @param instrumentHolds of the same instruments
 */
public record SetFile(
        SetId id,
        String label,
        List<Told<SetData>> data,
        List<Told<Custody>> custody,
        List<Told<FlowCheck>> flowChecks,
        List<Told<Examination>> examinations,
        List<Told<Cleaning>> cleanings,
        List<Told<PartChange>> partChanges,
        List<Told<Defect>> defects,
        List<Told<Hold>> holds,
        List<Told<PreUseCheck>> preUseChecks,
        List<Told<Wear>> wears,
        List<Told<WashStep>> washes,
        List<Told<BatteryTest>> batteryTests,
        Map<InstrumentId, List<Told<Calibration>>> calibrations,
        Map<InstrumentId, List<Told<Hold>>> instrumentHolds) {}
