package org.hoodkeeper.database;

import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatNoException;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.context.support.GenericApplicationContext;
import org.springframework.mock.env.MockEnvironment;

class BindAddressTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "server.address=127.0.0.1",
                "server.address=::1",
                "server.address=0.0.0.0 server.ssl.key-store=keys.p12",
                "server.address=0.0.0.0 server.ssl.bundle=web",
                "server.address=192.0.2.7 hoodkeeper.trusted-proxy=true",
                "server.address=192.0.2.7 server.forward-headers-strategy=framework"
            })
    void isAccepted(String properties) {
        assertThatNoException().isThrownBy(() -> start(properties));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "server.address=0.0.0.0",
                "server.address=",
                "server.address=192.0.2.7",
                "server.address=192.0.2.7 server.forward-headers-strategy=none",
                "server.address=192.0.2.7 hoodkeeper.trusted-proxy=false",
                "server.address=0.0.0.0 server.ssl.key-store=keys.p12 server.ssl.enabled=false"
            })
    void isOpenToTheNetworkInTheClear(String properties) {
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> start(properties))
                .withMessageContaining("there is no TLS");
    }

    private static void start(String properties) {
        MockEnvironment environment = new MockEnvironment();
        for (String property : properties.split(" ")) {
            String[] parts = property.split("=", 2);
            environment.setProperty(parts[0], parts[1]);
        }
        GenericApplicationContext context = new GenericApplicationContext();
        context.setEnvironment(environment);
        new BindAddress().initialize(context);
    }
}
