package org.hoodkeeper.access;

import java.util.Optional;
import org.hoodkeeper.kernel.Refused;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.stereotype.Component;

/** Choosing and checking passwords. Hashing takes about 75 ms of a core by intention, so it is never done in a lock. */
@Component
class Passwords {

    private final PasswordEncoder encoder;
    private final PasswordRules rules;
    private final String nobodys;

    Passwords(PasswordEncoder encoder, PasswordRules rules) {
        this.encoder = encoder;
        this.rules = rules;
        this.nobodys = encode(Secret.make());
    }

    /** @throws Refused {@code password.short}, {@code password.long}, {@code password.common} or {@code password.own} */
    void check(String password, String login, String name) {
        rules.check(password, login, name);
    }

    String encode(String password) {
        String encoded = encoder.encode(password);
        if (encoded == null) {
            throw new IllegalStateException("the encoder encodes every text");
        }
        return encoded;
    }

    /** Takes the same time whether or not there is such an account and it has a password. */
    boolean fits(String password, Optional<AccountRows.Row> account) {
        String stored = account.map(AccountRows.Row::password).orElse(nobodys);
        return encoder.matches(password, stored)
                && account.map(AccountRows.Row::password).isPresent();
    }

    boolean isOutdated(AccountRows.Row account) {
        return encoder.upgradeEncoding(account.password());
    }
}
