package org.hoodkeeper.exchange;

import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * Why a row cannot be recorded.
 *
 * @param row as the file counts, the header being row 1
 * @param column the column concerned; empty for the whole row
 * @param value what stands there
 * @param code the refusal's code, worded under {@code refused.<code>}
 * @param arguments of the words; null where there is nothing to name
 */
public record RowRefusal(long row, String column, String value, String code, List<@Nullable String> arguments) {

    static RowRefusal of(long row, String column, String value, Refused refused) {
        return new RowRefusal(
                row,
                column,
                value,
                refused.code(),
                Arrays.stream(refused.arguments()).map(RowRefusal::text).toList());
    }

    /** The refusal as it is worded. */
    public Refused refused() {
        return new Refused(code, arguments.toArray());
    }

    private static @Nullable String text(@Nullable Object argument) {
        if (argument == null) {
            return null;
        }
        if (argument instanceof Enum<?> constant) {
            return Form.word(constant);
        }
        if (argument instanceof Collection<?> several) {
            return several.stream().map(RowRefusal::text).collect(Collectors.joining(", "));
        }
        return argument.toString();
    }
}
