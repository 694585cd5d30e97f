package org.hoodkeeper.scenarios;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.hoodkeeper.database.TestClock;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** A story through the services on the real database; the clock goes back to real time after each test. */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@SpringBootTest
@Import({Story.Door.class, Story.Lookback.class})
@ExtendWith(ScenarioTest.ClockBack.class)
@interface ScenarioTest {

    /** Real time again. */
    class ClockBack implements AfterEachCallback {
        @Override
        public void afterEach(ExtensionContext context) {
            TestClock.reset();
        }
    }
}
