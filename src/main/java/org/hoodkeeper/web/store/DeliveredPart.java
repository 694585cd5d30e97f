package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * A place of the model and the part that was found there, as typed.
 *
 * @param slot the model's name for the place
 * @param approved the parts that its maker allows there, by code
 */
record DeliveredPart(String slot, List<String> approved, String part, String lot, String serial, String madeOn) {

    /** Every place of the model in its order, with what was typed for it. */
    static List<DeliveredPart> of(ModelData model, @Nullable HttpServletRequest typed) {
        List<DeliveredPart> parts = new ArrayList<>();
        for (int place = 0; place < model.slots().size(); place++) {
            ModelData.Slot slot = model.slots().get(place);
            parts.add(new DeliveredPart(
                    slot.name(),
                    List.copyOf(slot.parts()),
                    typed(typed, "part", place),
                    typed(typed, "lot", place),
                    typed(typed, "serial", place),
                    typed(typed, "madeOn", place)));
        }
        return parts;
    }

    private static String typed(@Nullable HttpServletRequest request, String field, int place) {
        String[] values = request == null ? null : request.getParameterValues(field);
        return values == null || place >= values.length ? "" : values[place].strip();
    }

    boolean isThere() {
        return !part.isEmpty();
    }

    boolean isApproved() {
        return approved.isEmpty() || approved.contains(part);
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
