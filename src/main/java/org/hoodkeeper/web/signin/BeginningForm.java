package org.hoodkeeper.web.signin;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.Objects;
import org.hoodkeeper.access.FirstAdministrator.Beginning;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** The form of the first administrator and the first site. */
public record BeginningForm(
        @NotBlank String login,
        @NotBlank String name,
        @NotEmpty String password,
        @Nullable String again,
        @NotBlank String siteCode,
        @NotBlank String siteName,
        @NotBlank String zone,
        @NotNull @Nullable RuleSet ruleSet) {

    enum RuleSet {
        UK("uk"),
        US_FEDERAL("us-federal");

        private final String code;

        RuleSet(String code) {
            this.code = code;
        }
    }

    /** @throws Refused when the passwords differ or there is no such zone */
    Beginning toBeginning() {
        if (!password.equals(again)) {
            throw new Refused("password.again.differs");
        }
        return new Beginning(login, name, password, siteCode, siteName, zoneId(), Objects.requireNonNull(ruleSet).code);
    }

    private ZoneId zoneId() {
        try {
            return ZoneId.of(zone);
        } catch (DateTimeException e) {
            throw new Refused("site.zone.unknown", zone);
        }
    }
}
