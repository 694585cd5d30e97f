package org.hoodkeeper.access.edge;

import java.util.List;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.SignIn;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.authority.FactorGrantedAuthority;
import org.springframework.stereotype.Component;

/** Lets the sign-in form and the commands' interface check a password. */
@Component
class PasswordCheck implements AuthenticationProvider {

    private static final SignIn.Place SOMEWHERE = new SignIn.Place("unknown", null);

    private final SignIn signIn;

    PasswordCheck(SignIn signIn) {
        this.signIn = signIn;
    }

    @Override
    public Authentication authenticate(Authentication tried) {
        Object password = tried.getCredentials();
        SignIn.Place place = tried.getDetails() instanceof SignIn.Place from ? from : SOMEWHERE;
        KnownAccount account = signIn.attempt(tried.getName(), password == null ? "" : password.toString(), place);
        return authenticated(account, place);
    }

    /** Roles are read on each request, so the session holds none; it does say which factor was shown. */
    private static Authentication authenticated(KnownAccount account, SignIn.Place place) {
        var authenticated = UsernamePasswordAuthenticationToken.authenticated(
                account,
                null,
                List.of(FactorGrantedAuthority.fromAuthority(FactorGrantedAuthority.PASSWORD_AUTHORITY)));
        // else what the device keeps would be put into the session along with the rest of the place
        authenticated.setDetails(place.source());
        return authenticated;
    }

    @Override
    public boolean supports(Class<?> kind) {
        return UsernamePasswordAuthenticationToken.class.isAssignableFrom(kind);
    }
}
