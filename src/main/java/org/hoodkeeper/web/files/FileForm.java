package org.hoodkeeper.web.files;

import org.jspecify.annotations.Nullable;
import org.springframework.web.multipart.MultipartFile;

/** The file that a person chose. */
public record FileForm(@Nullable MultipartFile file) {

    boolean isEmpty() {
        return file == null || file.isEmpty();
    }
}
