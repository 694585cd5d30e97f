package org.hoodkeeper.web.oversight;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.oversight.ChainHead;
import org.jspecify.annotations.Nullable;
import org.springframework.web.multipart.MultipartFile;

/** A head that was taken out earlier, pasted or as the file. */
public record EarlierForm(@Nullable String head, @Nullable MultipartFile file) {

    /** A head file has a few lines. */
    private static final int MOST = 64 * 1024;

    private static final int MOST_HEADS = 50;

    /** @throws Refused {@code head.missing}, {@code head.file.large}, {@code head.unreadable} or {@code head.many} */
    List<ChainHead> heads() {
        List<String> lines = ChainHead.lines((head == null ? "" : head) + "\n" + sent());
        if (lines.isEmpty()) {
            throw new Refused("head.missing");
        }
        if (lines.size() > MOST_HEADS) {
            throw new Refused("head.many", MOST_HEADS);
        }
        return lines.stream().map(ChainHead::parse).toList();
    }

    private String sent() {
        if (file == null || file.isEmpty()) {
            return "";
        }
        if (file.getSize() > MOST) {
            throw new Refused("head.file.large");
        }
        try {
            return new String(file.getBytes(), StandardCharsets.UTF_8);
        } catch (IOException lost) {
            throw new UncheckedIOException(lost);
        }
    }
}
