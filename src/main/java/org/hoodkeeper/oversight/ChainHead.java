package org.hoodkeeper.oversight;

import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.kernel.Refused;

/**
 * The head of a chain as it is taken out, in one line that the page and the command both write and read:
 * {@code head SITE record|audit POSITION HASH}.
 *
 * @param site the site's code, {@link #SERVICE} for the service's own trail
 * @param position of the last seal; 0 for none
 * @param hash SHA-256, hexadecimal
 */
public record ChainHead(String site, Of of, long position, String hash) {

    public static final String SERVICE = "-";

    private static final Pattern LINE =
            Pattern.compile("head (\\S+) (record|audit) (0|[1-9][0-9]{0,17}) ([0-9a-fA-F]{64})");

    /** Which chain of a site. */
    public enum Of {
        RECORD,
        AUDIT;

        /** As it stands in the line. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public String line() {
        return "head " + site + " " + of.word() + " " + position + " " + hash;
    }

    /** @throws Refused {@code head.unreadable} */
    public static ChainHead parse(String line) {
        Matcher parts = LINE.matcher(line.strip().replaceAll("\\s+", " "));
        if (!parts.matches()) {
            throw new Refused("head.unreadable", line.length() > 120 ? line.substring(0, 120) + "…" : line);
        }
        return new ChainHead(
                parts.group(1),
                Of.valueOf(parts.group(2).toUpperCase(Locale.ROOT)),
                Long.parseLong(parts.group(3)),
                parts.group(4).toLowerCase(Locale.ROOT));
    }

    /** The lines of a text that tell a head; what stands around them does not matter. */
    public static List<String> lines(String text) {
        return text.lines()
                .map(String::strip)
                .filter(line -> line.startsWith("head "))
                .toList();
    }
}
