package org.hoodkeeper.web;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.validation.BindingResult;
import org.springframework.validation.FieldError;
import org.springframework.validation.ObjectError;
import org.springframework.web.context.request.RequestAttributes;
import org.springframework.web.context.request.RequestContextHolder;

/** Puts a refusal on the page whose form was refused, so that what was typed stays. */
@Component
public class Refusals {

    static final String TIME_TWICE = "timeTwice";

    /** A sentence that is ready: as a default message it would be taken for a pattern once more, with what was typed in it. */
    private static final String[] SAID = {"form.said"};

    private final Words words;

    Refusals(Words words) {
        this.words = words;
    }

    /**
     * Beside the field that the refusal's code names ({@code evidence.happenedOn.future} names {@code happenedOn}), else
     * over the whole form.
     */
    public void show(Refused refused, BindingResult form) {
        show(refused, form, fieldNamed(refused, form).orElse(null));
    }

    /**
     * Beside the given field. A local time that occurs twice also asks which one: the fragment {@code occurrence} then
     * shows both.
     *
     * @param field null to show it over the whole form
     */
    public void show(Refused refused, BindingResult form, @Nullable String field) {
        String message = words.refusal(refused);
        form.addError(
                field == null
                        ? new ObjectError(form.getObjectName(), SAID, new Object[] {message}, null)
                        : new FieldError(
                                form.getObjectName(),
                                field,
                                form.getRawFieldValue(field),
                                false,
                                SAID,
                                new Object[] {message},
                                null));
        if (refused.code().equals("time.twice")) {
            askWhich(refused.arguments());
        }
    }

    /** A day typed above a list; none where nothing was typed or, said beside its field, where it is no day. */
    public @Nullable LocalDate day(@Nullable String text, BindingResult form, String field) {
        try {
            return DayText.read(text);
        } catch (Refused refused) {
            show(refused, form, field);
            return null;
        }
    }

    private void askWhich(Object[] arguments) {
        RequestContextHolder.currentRequestAttributes()
                .setAttribute(
                        TIME_TWICE,
                        List.of(
                                Choice.named(
                                        Occurrence.EARLIER.name(), words.say("form.occurrence.EARLIER", arguments[1])),
                                Choice.named(
                                        Occurrence.LATER.name(), words.say("form.occurrence.LATER", arguments[2]))),
                        RequestAttributes.SCOPE_REQUEST);
    }

    private static Optional<String> fieldNamed(Refused refused, BindingResult form) {
        Object target = form.getTarget();
        if (target == null || !target.getClass().isRecord()) {
            return Optional.empty();
        }
        List<String> parts = List.of(refused.code().split("\\."));
        return Stream.of(target.getClass().getRecordComponents())
                .map(component -> component.getName())
                .filter(parts::contains)
                .findFirst();
    }
}
