package org.hoodkeeper.web.oversight;

import java.util.List;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;

/** Which records are erased. @param records ids of their first versions */
public record ErasureForm(@Nullable List<@Nullable String> records) {

    List<RecordId> ids() {
        return records == null
                ? List.of()
                : records.stream()
                        .map(one -> Sheets.recordId(String.valueOf(one)))
                        .distinct()
                        .toList();
    }
}
