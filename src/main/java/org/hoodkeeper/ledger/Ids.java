package org.hoodkeeper.ledger;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.impl.TimeBasedEpochGenerator;
import java.util.UUID;

/** Makes ids that grow with time (UUID version 7), so that new rows land at the end of every index. */
public final class Ids {

    private static final TimeBasedEpochGenerator GENERATOR = Generators.timeBasedEpochGenerator();

    private Ids() {}

    public static UUID next() {
        return GENERATOR.generate();
    }
}
