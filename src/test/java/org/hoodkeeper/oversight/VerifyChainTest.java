package org.hoodkeeper.oversight;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import org.hoodkeeper.database.TestDatabase;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.evidence.TestSite.Laid;
import org.hoodkeeper.ledger.Sealer;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.datasource.AbstractDataSource;

@SpringBootTest
@Import(TestSite.class)
class VerifyChainTest {

    @Autowired
    TestSite sites;

    @Autowired
    Sealer sealer;

    private String printed = "";

    private boolean run(String... earlier) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        boolean whole = new VerifyChain(new Reader(), new PrintStream(bytes, true, StandardCharsets.UTF_8))
                .run(List.of(earlier));
        printed = bytes.toString(StandardCharsets.UTF_8);
        return whole;
    }

    /** As the role that may only read, which is bound to no site. */
    @Test
    void anEarlierHeadIsStillWhereItWasAndAForgedOneIsNot() {
        Laid laid = sites.lay("uk");
        laid.in(() -> sealer.seal(laid.site().id()));
        run();
        String code = laid.site().code();
        String head = printed.lines()
                .filter(line -> line.startsWith("head " + code + " record "))
                .findFirst()
                .orElseThrow();
        assertThat(head).matches("head " + code + " record [1-9][0-9]* [0-9a-f]{64}");
        assertThat(printed).contains("checked " + code + " record ").doesNotContain("broken " + code);
        String forged = head.substring(0, head.length() - 4) + (head.endsWith("0000") ? "1111" : "0000");
        // each run goes through every site that the tests have laid
        assertThat(run(head, forged, "head " + code + " record")).isFalse();
        assertThat(printed)
                .contains("same " + head, "DIFFERS " + forged, "BROKEN", "UNREADABLE head " + code + " record\n")
                .doesNotContain("same " + forged, "DIFFERS " + head);
    }

    private static final class Reader extends AbstractDataSource {

        @Override
        public Connection getConnection() throws SQLException {
            return TestDatabase.asVerifier();
        }

        @Override
        public Connection getConnection(String user, String password) throws SQLException {
            return getConnection();
        }
    }
}
