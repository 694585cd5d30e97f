package org.hoodkeeper.ledger;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.UUIDClock;
import com.fasterxml.uuid.impl.TimeBasedEpochGenerator;
import java.util.UUID;

/**
 * Makes ids that grow with time (UUID version 7), so that new rows land at the end of every index. Each is above every id made
 * before it in this process, whoever asked and even where the machine's clock was set back.
 */
public final class Ids {

    private static final TimeBasedEpochGenerator GENERATOR = Generators.timeBasedEpochGenerator(null, new Onward());

    private Ids() {}

    /** One at a time: the generator reads its clock before it locks, so that of two threads the later could get the lower id. */
    public static synchronized UUID next() {
        return GENERATOR.generate();
    }

    private static final class Onward extends UUIDClock {

        private long reached;

        @Override
        public long currentTimeMillis() {
            reached = Math.max(reached, super.currentTimeMillis());
            return reached;
        }
    }
}
