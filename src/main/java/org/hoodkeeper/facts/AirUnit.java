package org.hoodkeeper.facts;

import java.util.regex.Pattern;

/** The spelling of a unit of concentration: {@code mg/m3} in records and files, mg/m³ for people. Both may be typed. */
public final class AirUnit {

    private static final Pattern CUBIC = Pattern.compile("(?<![\\p{L}\\d])(c?m)3(?![\\p{L}\\d])");

    private AirUnit() {}

    /** As records and files spell it, so that one unit is one word however it was typed; the Greek letter is the micro sign. */
    public static String spelled(String typed) {
        // a file may lack it, which its shape refuses
        return typed == null ? typed : typed.strip().replace('³', '3').replace('\u03bc', '\u00b5');
    }

    /** As people write it: mg/m³ for mg/m3, f/cm³ for f/cm3. */
    public static String written(String unit) {
        return CUBIC.matcher(unit).replaceAll("$1³");
    }
}
