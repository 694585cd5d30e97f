package org.hoodkeeper.web.files;

import org.hoodkeeper.exchange.FileKind;

/** One kind of file in the list, and what the reader may do with it. */
public record KindLine(FileKind kind, boolean isBrought, boolean isTaken) {

    public String fileName() {
        return kind.slug() + ".csv";
    }
}
