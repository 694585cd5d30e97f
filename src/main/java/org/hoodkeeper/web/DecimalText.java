package org.hoodkeeper.web;

import java.math.BigDecimal;
import java.text.DecimalFormatSymbols;
import java.text.ParseException;
import java.util.Locale;
import java.util.regex.Pattern;
import org.springframework.format.Formatter;

/**
 * Reads decimal numbers as people type them: comma or point as the decimal mark whatever the language, groups of three
 * parted by spaces, digits of any script. A text that two readers would read differently is refused:
 * both marks in one number, a mark twice, or one mark before exactly three digits where the language uses that mark
 * for thousands (1.250 in Spanish, 1,250 in English).
 */
class DecimalText implements Formatter<BigDecimal> {

    private static final int LONGEST = 40;
    private static final Pattern SPACES = Pattern.compile("(?<=[0-9])[ \\u00a0\\u2009\\u202f](?=[0-9]{3}(?![0-9]))");
    private static final Pattern NUMBER = Pattern.compile("[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)");

    @Override
    public BigDecimal parse(String text, Locale locale) throws ParseException {
        String typed = westernDigits(text.strip()).replace('\u2212', '-');
        String plain = SPACES.matcher(typed).replaceAll("");
        if (typed.length() > LONGEST || !NUMBER.matcher(plain).matches()) {
            throw new ParseException(text, 0);
        }
        if (mayBeThousands(plain, locale)) {
            throw new ParseException(text, plain.length());
        }
        return new BigDecimal(plain.replace(',', '.'));
    }

    /** As it is typed: the language's mark, no groups, no exponent, trailing zeros kept since they state precision. */
    @Override
    public String print(BigDecimal number, Locale locale) {
        return number.toPlainString().replace('.', decimalMark(locale));
    }

    static char decimalMark(Locale locale) {
        return DecimalFormatSymbols.getInstance(locale).getDecimalSeparator() == ',' ? ',' : '.';
    }

    /** 0,125 and 1250.125 cannot be thousands; 1.250 in Spanish can. */
    private static boolean mayBeThousands(String plain, Locale locale) {
        char otherMark = decimalMark(locale) == ',' ? '.' : ',';
        return plain.matches("[+-]?[1-9][0-9]{0,2}" + Pattern.quote(String.valueOf(otherMark)) + "[0-9]{3}");
    }

    private static String westernDigits(String text) {
        StringBuilder western = new StringBuilder(text.length());
        text.codePoints()
                .map(sign -> Character.isDigit(sign) ? '0' + Character.digit(sign, 10) : sign)
                .map(sign -> sign == '\u066b' ? '.' : sign)
                .forEach(western::appendCodePoint);
        return western.toString();
    }
}
