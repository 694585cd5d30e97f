package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;

/** An exposure limit as the site applies it. */
public record LimitForm(
        @NotBlank @Size(max = 120) @Nullable String substance,
        @NotNull @Nullable BigDecimal value,
        @NotBlank @Size(max = 120) @Nullable String unit,
        @Nullable BigDecimal idlh,
        List<FilterKind> filters,
        @NotNull @Nullable YesNo airFedOnly,
        @NotBlank @Size(max = 120) @Nullable String source,
        @NotNull @Nullable Mark mark,
        @Nullable BigDecimal shortTerm,
        @Nullable BigDecimal ceiling,
        @Nullable BigDecimal filterLimit,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    public LimitForm {
        filters = Choice.made(filters);
    }

    /** What stands of a substance. */
    static LimitForm of(String substance, Limit limit) {
        return new LimitForm(
                substance,
                limit.value(),
                limit.unit(),
                limit.idlh(),
                List.copyOf(limit.filters()),
                limit.airFedOnly() ? YesNo.YES : YesNo.NO,
                limit.source(),
                limit.mark(),
                limit.shortTerm(),
                limit.ceiling(),
                limit.filterLimit(),
                null,
                null);
    }

    Limit toFact() {
        return new Limit(
                Objects.requireNonNull(value),
                Objects.requireNonNull(unit),
                idlh,
                Set.copyOf(filters),
                YesNo.isYes(airFedOnly),
                Objects.requireNonNull(source),
                Objects.requireNonNull(mark),
                shortTerm,
                ceiling,
                filterLimit);
    }
}
