package org.hoodkeeper.web.store;

import java.util.List;
import org.hoodkeeper.store.MeasuredFlow;
import org.jspecify.annotations.Nullable;

/**
 * One measurement as a table shows it.
 *
 * @param tone of the result, as verdicts have
 * @param result in words, with why where it does not count
 * @param source what measured it: a flow check, an examination, a check before use
 * @param label of the set
 * @param open the reader may open the record
 * @param error what the error that was found would have made of it, in words; none where nothing was found
 * @param rests all it rested on; empty where the table alone shows it
 */
public record FlowLine(
        MeasuredFlow of,
        String tone,
        String result,
        String source,
        String label,
        String instrument,
        String shown,
        String corrected,
        boolean open,
        @Nullable String error,
        List<Line> rests) {}
