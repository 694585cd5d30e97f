package org.hoodkeeper.web;

import java.math.BigDecimal;
import java.text.ParseException;
import java.util.Locale;
import org.springframework.format.Formatter;

/** Reads whole numbers as {@link DecimalText} reads decimals; a fraction is refused, never cut. */
class WholeText implements Formatter<Integer> {

    private final DecimalText decimals = new DecimalText();

    @Override
    public Integer parse(String text, Locale locale) throws ParseException {
        BigDecimal number = decimals.parse(text, locale);
        try {
            return number.intValueExact();
        } catch (ArithmeticException e) {
            throw new ParseException(text, 0);
        }
    }

    @Override
    public String print(Integer number, Locale locale) {
        return number.toString();
    }
}
