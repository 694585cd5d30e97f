package org.hoodkeeper.access;

import java.util.HexFormat;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.stereotype.Service;

/**
 * Signing in by password. An unknown name, a wrong password and a disabled account cannot be told apart, by words or by
 * time; a pause comes to unknown names just the same. Runs in no transaction: no database connection is held while a password is hashed.
 */
@Service
public class SignIn {

    /**
     * Where a try comes from.
     *
     * @param source network address
     * @param device what a device keeps since an earlier sign-in; guesses made elsewhere do not hold such a device up
     */
    public record Place(String source, @Nullable String device) {}

    private final AccountRows accounts;
    private final Passwords passwords;
    private final SignInPauses pauses;
    private final SignInPlaces places;
    private final AuditTrail audit;

    SignIn(AccountRows accounts, Passwords passwords, SignInPauses pauses, SignInPlaces places, AuditTrail audit) {
        this.accounts = accounts;
        this.passwords = passwords;
        this.pauses = pauses;
        this.places = places;
        this.audit = audit;
    }

    /** @throws AuthenticationException whenever it is not accepted */
    public KnownAccount attempt(String typedLogin, String password, Place place) {
        String login = NewAccount.plain(typedLogin);
        String source = "source:" + place.source();
        String device = place.device();
        boolean familiar = device != null && places.knows(login, device);
        String subject = familiar ? "device:" + hex(login + " " + device) : "account:" + hex(login);
        if (!pauses.tryNow(subject, SignInPauses.Pace.ACCOUNT)
                || !familiar && !pauses.tryNow(source, SignInPauses.Pace.SOURCE)) {
            throw new BadCredentialsException("a pause runs");
        }
        Optional<AccountRows.Row> row = accounts.byLogin(login);
        boolean fits = passwords.fits(password, row);
        if (!fits || row.isEmpty() || row.get().disabled()) {
            audit.record(AuditEntry.of("signIn.refused")
                    .by(row.map(AccountRows.Row::account).orElse(null))
                    .from(place.source()));
            throw new BadCredentialsException("not accepted");
        }
        pauses.forget(subject);
        if (!familiar) {
            pauses.takeBack(source);
        }
        renewEncoding(row.get(), password);
        audit.record(AuditEntry.of("signIn.accepted").by(row.get().account()).from(place.source()));
        return row.get().known();
    }

    /** @return what the device is to keep from now on; what it kept goes on only when it was given by us for this account */
    public String rememberDevice(KnownAccount account, @Nullable String device) {
        String kept = device != null && places.knows(account.login(), device) ? device : Secret.make();
        places.remember(account.id(), kept);
        return kept;
    }

    private void renewEncoding(AccountRows.Row row, String password) {
        if (passwords.isOutdated(row)) {
            accounts.encodeAnew(row, passwords.encode(password));
        }
    }

    /** A password typed into the wrong field is not kept in clear. */
    private static String hex(String text) {
        return HexFormat.of().formatHex(Secret.hash(text));
    }
}
