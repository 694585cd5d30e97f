package org.hoodkeeper.web.store;

import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/**
 * Guided work as far as it has come. What was answered before travels with the page, so that no step needs a session.
 *
 * @param page which page was sent, from 0
 * @param answer to the step of that page
 * @param answered the steps answered before, each as {@code CODE=PASS}
 */
public record GuideForm(
        @Nullable Integer page,
        @Nullable Outcome answer,
        @Nullable List<String> answered,
        @Size(max = 2_000) @Nullable String note,
        @Nullable String instrument,
        @Nullable BigDecimal reading,
        @Nullable BigDecimal celsius,
        @Nullable BigDecimal hectopascals,
        @Nullable BigDecimal metres,
        @Size(max = 120) @Nullable String part,
        @Size(max = 120) @Nullable String lot,
        @Size(max = 120) @Nullable String serial,
        @Nullable LocalDate madeOn,
        PartForm.@Nullable Fitted fitted,
        @Size(max = 120) @Nullable String fitter,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed, AirAtReading {

    static GuideForm empty() {
        return new GuideForm(
                0, null, null, null, null, null, null, null, null, null, null, null, null, null, null, null, null);
    }

    /** Of steps in the order in which they were answered; what nobody can read is left out. */
    Map<String, Outcome> answers() {
        Map<String, Outcome> answers = new LinkedHashMap<>();
        for (String one : answered == null ? List.<String>of() : answered) {
            int sign = one.indexOf('=');
            String outcome = one.substring(sign + 1);
            if (sign > 0 && (outcome.equals("PASS") || outcome.equals("FAIL"))) {
                answers.put(one.substring(0, sign), Outcome.valueOf(outcome));
            }
        }
        return answers;
    }

    /** The same with one more answer. */
    GuideForm with(String step, Outcome outcome) {
        Map<String, Outcome> answers = answers();
        answers.put(step, outcome);
        List<String> all = new ArrayList<>();
        answers.forEach((code, said) -> all.add(code + "=" + said));
        return at(page, outcome, all);
    }

    /** The same, shown at a page. @param answer what that page's step was answered before */
    GuideForm turned(int to, @Nullable Outcome before) {
        return at(to, before, answered);
    }

    private GuideForm at(@Nullable Integer to, @Nullable Outcome said, @Nullable List<String> all) {
        return new GuideForm(
                to,
                said,
                all,
                note,
                instrument,
                reading,
                celsius,
                hectopascals,
                metres,
                part,
                lot,
                serial,
                madeOn,
                fitted,
                fitter,
                at,
                atOccurrence);
    }
}
