package org.hoodkeeper.web.sheet;

import java.util.List;
import org.hoodkeeper.web.Choice;
import org.jspecify.annotations.Nullable;

/** An answer that nobody gives for the person: radios with neither chosen. */
public enum YesNo {
    YES,
    NO;

    public static boolean isYes(@Nullable YesNo answer) {
        return answer == YES;
    }

    public static List<Choice> choices() {
        return Choice.each("sheet.", values());
    }
}
