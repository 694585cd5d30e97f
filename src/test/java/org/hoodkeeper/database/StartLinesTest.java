package org.hoodkeeper.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.support.StaticListableBeanFactory;
import org.springframework.mock.env.MockEnvironment;

class StartLinesTest {

    /** A link that a person opens right away must begin as the service answers. */
    @ParameterizedTest
    @CsvSource({
        "127.0.0.1, '',              http://127.0.0.1:8080",
        "127.0.0.1, /keys/store.p12, https://127.0.0.1:8080",
        "0.0.0.0,   /keys/store.p12, https://localhost:8080",
        "::1,       '',              'http://[::1]:8080'"
    })
    void noticesGetTheAddressAsItAnswers(String bound, String keys, String address) {
        MockEnvironment environment =
                new MockEnvironment().withProperty("server.address", bound).withProperty("server.ssl.key-store", keys);
        StaticListableBeanFactory notices = new StaticListableBeanFactory();
        notices.addBean("notice", (StartNotice) at -> List.of("begin at " + at + "/first"));
        ServiceClock clock = new ServiceClock(Duration.ZERO);
        Login nobody = new Login("jdbc:none", "nobody", "");
        StartLines lines = new StartLines(
                environment,
                new Rehearsal(clock, new ClockTable(nobody), false),
                clock,
                new Database(Database.Kind.EXTERNAL, Database.Users.SEPARATE, nobody, nobody, "nobody", "nobody"),
                notices.getBeanProvider(StartNotice.class));
        assertThat(lines.lines(8080))
                .contains("Hoodkeeper answers at " + address + "/", "begin at " + address + "/first");
    }
}
