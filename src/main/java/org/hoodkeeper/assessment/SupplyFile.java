package org.hoodkeeper.assessment;

import java.util.List;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.SupplyId;

/** What is known of a breathing-air supply; lists as in {@link WorkerFile}. */
public record SupplyFile(
        SupplyId id,
        List<Told<AirTest>> tests,
        List<Told<SupplyMove>> moves,
        List<Told<PurifierTag>> tags,
        List<Told<Hold>> holds) {}
