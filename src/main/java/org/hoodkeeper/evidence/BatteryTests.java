package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Running times of batteries, measured from full charge. */
@Service
@Transactional
public class BatteryTests {

    private final Telling telling;
    private final Known known;

    BatteryTests(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code batteryTest.set.noBattery} when the device has none; {@code
     *     ledger.future} when it lies ahead
     */
    public RecordId record(Author author, SetId set, BatteryTest test, Instant at, @Nullable String sourceId) {
        ModelData model = known.modelOf(author.site(), set, at);
        if (model != null && !model.type().hasBlower()) {
            throw new Refused("batteryTest.set.noBattery", model.name());
        }
        return telling.tell(author, Draft.of(test, set, at).source(sourceId), set);
    }
}
