package org.hoodkeeper.web.officer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
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

/** What the maker says of a model, as a change from a time on or as a correction of what we held. */
public record ModelForm(
        @NotNull @Nullable Sort sort,
        @Size(max = 2000) @Nullable String because,
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

    /** Whether it reaches back. */
    enum Sort {
        CHANGE,
        CORRECTION
    }

    public ModelForm {
        filters = Choice.made(filters);
    }

    ModelData toFact(Lists lists) {
        return new ModelData(
                Objects.requireNonNull(name),
                Objects.requireNonNull(type),
                ModelText.classes(classes),
                YesNo.isYes(skinContact),
                new HashSet<>(Lists.words(sizes)),
                Objects.requireNonNull(sealRevision),
                minimumFlow,
                Objects.requireNonNull(flowAt),
                batteryMinutes,
                Set.copyOf(filters),
                ModelText.products(lists, products),
                maxWashCelsius,
                ModelText.slots(lists, slots));
    }

    /** What is on record now, with sort and time left to be said. */
    static ModelForm of(ModelData data, ModelText text) {
        return new ModelForm(
                null,
                null,
                data.name(),
                data.type(),
                text.classes(data),
                data.skinContact() ? YesNo.YES : YesNo.NO,
                String.join(" ", data.sizes()),
                data.sealRevision(),
                data.minimumFlow(),
                data.flowAt(),
                data.batteryMinutes(),
                List.copyOf(data.filters()),
                text.products(data),
                data.maxWashCelsius(),
                text.slots(data),
                null,
                null);
    }
}
