package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * A place of the model and the part that was found there, as text.
 *
 * @param slot the model's name for the place
 * @param approved the parts that its maker allows there, by code
 */
public record DeliveredPart(String slot, List<String> approved, String part, String lot, String serial, String madeOn) {

    /** Every place of the model in its order, with what was typed for it. */
    static List<DeliveredPart> typed(ModelData model, HttpServletRequest request) {
        List<DeliveredPart> parts = new ArrayList<>();
        for (int place = 0; place < model.slots().size(); place++) {
            parts.add(at(
                    model.slots().get(place),
                    typed(request, "part", place),
                    typed(request, "lot", place),
                    typed(request, "serial", place),
                    typed(request, "madeOn", place)));
        }
        return parts;
    }

    /** Every place of the model in its order, with what an earlier look found there. @param parts by place */
    static List<DeliveredPart> onRecord(ModelData model, Map<String, PartChange> parts) {
        return model.slots().stream()
                .map(slot -> onRecord(slot, parts.get(slot.name())))
                .toList();
    }

    private static DeliveredPart onRecord(ModelData.Slot slot, @Nullable PartChange part) {
        return part == null
                ? at(slot, "", "", "", "")
                : at(
                        slot,
                        part.part(),
                        Objects.toString(part.lot(), ""),
                        Objects.toString(part.serial(), ""),
                        Objects.toString(part.madeOn(), ""));
    }

    private static DeliveredPart at(ModelData.Slot slot, String part, String lot, String serial, String madeOn) {
        return new DeliveredPart(slot.name(), List.copyOf(slot.parts()), part, lot, serial, madeOn);
    }

    private static String typed(HttpServletRequest request, String field, int place) {
        String[] values = request.getParameterValues(field);
        return values == null || place >= values.length ? "" : values[place].strip();
    }

    boolean isThere() {
        return !part.isEmpty();
    }

    boolean isApproved() {
        return approved.isEmpty() || approved.contains(part);
    }

    /** Whether that very part is on record there already, whoever fitted it. */
    boolean isStill(@Nullable PartChange before) {
        return before != null
                && part.equals(before.part())
                && Objects.equals(blank(lot), before.lot())
                && Objects.equals(blank(serial), before.serial())
                && Objects.equals(day(), before.madeOn());
    }

    /** @throws Refused {@code acceptance.madeOn.form} when the day is none */
    PartChange fitted() {
        return new PartChange(part, blank(lot), blank(serial), day(), true, null);
    }

    private @Nullable LocalDate day() {
        try {
            return madeOn.isEmpty() ? null : LocalDate.parse(madeOn);
        } catch (DateTimeParseException noDay) {
            throw new Refused("acceptance.madeOn.form", slot, madeOn);
        }
    }

    private static @Nullable String blank(String text) {
        return text.isEmpty() ? null : text;
    }
}
