package org.hoodkeeper.web.officer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.List;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.ModelData.FlowAt;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;

/** A model that the site did not hold so far, with what its maker says of it. */
public record NewModelForm(
        @NotBlank @Size(max = 30) @Nullable String code,
        @NotBlank @Size(max = 120) @Nullable String name,
        @NotNull @Nullable InterfaceType type,
        @Size(max = 2000) @Nullable String classes,
        @NotNull @Nullable YesNo skinContact,
        @Size(max = 400) @Nullable String sizes,
        @NotBlank @Size(max = 40) @Nullable String sealRevision,
        @Nullable BigDecimal minimumFlow,
        @NotNull @Nullable FlowAt flowAt,
        @Nullable Integer batteryMinutes,
        List<FilterKind> filters,
        @Size(max = 4000) @Nullable String products,
        @Nullable BigDecimal maxWashCelsius,
        @Size(max = 4000) @Nullable String slots,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    public NewModelForm {
        filters = Choice.made(filters);
    }

    static NewModelForm empty() {
        return new NewModelForm(
                null, null, null, null, null, null, null, null, null, null, List.of(), null, null, null, null, null);
    }

    ModelData toFact(Lists lists) {
        return new ModelForm(
                        ModelForm.Sort.CHANGE,
                        null,
                        name,
                        type,
                        classes,
                        skinContact,
                        sizes,
                        sealRevision,
                        minimumFlow,
                        flowAt,
                        batteryMinutes,
                        filters,
                        products,
                        maxWashCelsius,
                        slots,
                        at,
                        atOccurrence)
                .toFact(lists);
    }
}
