package org.hoodkeeper.kernel;

import org.jspecify.annotations.Nullable;

/** Nothing with that name or label on this site, or nothing this reader may know of: both look the same. */
public class NotFound extends Refused {

    public NotFound(String code, @Nullable Object... arguments) {
        super(code, arguments);
    }
}
