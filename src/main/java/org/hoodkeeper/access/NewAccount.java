package org.hoodkeeper.access;

import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.hoodkeeper.kernel.Refused;

/**
 * An account to be made.
 *
 * @param login sign-in name, 2 to 64 letters, digits, dots, hyphens, underscores or at signs; kept in small letters
 * @param name what the person is called, 1 to 120 signs
 */
public record NewAccount(String login, String name, List<RoleGrant> grants) {

    private static final Pattern LOGIN = Pattern.compile("[a-z0-9][a-z0-9._@-]{1,63}");
    private static final int LONGEST_NAME = 120;

    public NewAccount {
        login = plain(login);
        name = name.strip();
        grants = List.copyOf(grants);
        if (!LOGIN.matcher(login).matches()) {
            throw new Refused("access.login.form", login);
        }
        if (name.isEmpty() || name.length() > LONGEST_NAME) {
            throw new Refused("access.name.length", LONGEST_NAME);
        }
    }

    /** A sign-in name as it is compared: case and surrounding blanks do not matter. */
    static String plain(String login) {
        return login.strip().toLowerCase(Locale.ROOT);
    }
}
