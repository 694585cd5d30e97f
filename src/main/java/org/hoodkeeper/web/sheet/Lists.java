package org.hoodkeeper.web.sheet;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.core.convert.ConversionException;
import org.springframework.core.convert.ConversionService;
import org.springframework.stereotype.Component;

/** Reads several things that were typed into one field, one on each line, its parts with semicolons between. */
@Component
public class Lists {

    private final ConversionService typed;

    Lists(@Qualifier("mvcConversionService") ConversionService typed) {
        this.typed = typed;
    }

    /**
     * Figures as the reader's language writes them, one on each line or with spaces between.
     *
     * @throws Refused the given code, with what could not be read
     */
    public List<BigDecimal> figures(@Nullable String text, String code) {
        return words(text).stream().map(one -> figure(one, one, code)).toList();
    }

    /** Words with spaces or line ends between. */
    public static List<String> words(@Nullable String text) {
        return text == null
                ? List.of()
                : Stream.of(text.split("[\\s]+"))
                        .filter(word -> !word.isBlank())
                        .toList();
    }

    /**
     * One thing on each line.
     *
     * @param parts how many parts a line has; a line with fewer is filled up with empty ones
     * @throws Refused the given code, with the line, where it has more parts or cannot be made
     */
    public <T> List<T> lines(@Nullable String text, int parts, String code, Function<Parts, T> make) {
        return text == null
                ? List.of()
                : text.lines()
                        .filter(line -> !line.isBlank())
                        .map(line -> make.apply(new Parts(line.strip(), split(line, parts, code), code)))
                        .toList();
    }

    private static List<String> split(String line, int parts, String code) {
        List<String> split =
                Arrays.stream(line.split(";", -1)).map(String::strip).toList();
        if (split.size() > parts) {
            throw new Refused(code, line.strip());
        }
        return Stream.concat(split.stream(), Stream.generate(() -> ""))
                .limit(parts)
                .toList();
    }

    private BigDecimal figure(String text, String line, String code) {
        try {
            BigDecimal figure = typed.convert(text, BigDecimal.class);
            if (figure != null) {
                return figure;
            }
        } catch (ConversionException unreadable) {
            throw new Refused(code, line);
        }
        throw new Refused(code, line);
    }

    /** The parts of one line. */
    public final class Parts {

        private final String line;
        private final List<String> parts;
        private final String code;

        private Parts(String line, List<String> parts, String code) {
            this.line = line;
            this.parts = parts;
            this.code = code;
        }

        /** The whole line as it was typed. */
        public String line() {
            return line;
        }

        public String text(int at) {
            return parts.get(at);
        }

        public @Nullable BigDecimal figure(int at) {
            return parts.get(at).isEmpty() ? null : Lists.this.figure(parts.get(at), line, code);
        }

        public @Nullable Integer whole(int at) {
            BigDecimal figure = figure(at);
            try {
                return figure == null ? null : figure.intValueExact();
            } catch (ArithmeticException fraction) {
                throw new Refused(code, line);
            }
        }
    }
}
