package org.hoodkeeper.kernel;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Something a person asked for that the trade, the rules or the ledger do not allow. Carries a message code and its
 * arguments, never a sentence; the page turns both into words and keeps what was typed.
 */
public class Refused extends RuntimeException {

    private final String code;
    private final transient @Nullable Object[] arguments;

    public Refused(String code, @Nullable Object... arguments) {
        super(code + " " + Arrays.toString(arguments), null, false, false);
        this.code = code;
        this.arguments = arguments.clone();
    }

    /** The message code, without its prefix {@code refused.}. */
    public String code() {
        return code;
    }

    public @Nullable Object[] arguments() {
        return arguments.clone();
    }
}
