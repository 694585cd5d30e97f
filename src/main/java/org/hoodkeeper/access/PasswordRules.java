package org.hoodkeeper.access;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import org.hoodkeeper.kernel.Refused;
import org.springframework.stereotype.Component;

/**
 * What a password has to be. Length is what counts and no mixture of signs is asked for (NIST SP 800-63B; OWASP ASVS
 * 5.0.0, 6.2.1 to 6.2.5): at least 12 signs, since many people here type it on a phone with one thumb and 15 makes them
 * write it on the helmet; three plain words are enough. What is easy is refused from a list kept here, without asking
 * anybody outside.
 */
@Component
class PasswordRules {

    /** Signs, not bytes. */
    static final int SHORTEST = 12;

    /** ASVS 6.2.9 wants at least 64; more only makes hashing slower. */
    static final int LONGEST = 256;

    private static final int FEWEST_DIFFERENT_SIGNS = 5;
    private static final int SHORTEST_OWN_WORD = 4;
    private static final String LIST = "/org/hoodkeeper/access/easy-passwords.txt";

    private final Set<String> easy;

    PasswordRules() {
        this.easy = read();
    }

    void check(String password, String login, String name) {
        int length = password.codePointCount(0, password.length());
        if (length < SHORTEST) {
            throw new Refused("password.short", SHORTEST);
        }
        if (length > LONGEST) {
            throw new Refused("password.long", LONGEST);
        }
        if (isEasy(password)) {
            throw new Refused("password.common");
        }
        if (holdsOwnName(password, login, name)) {
            throw new Refused("password.own");
        }
    }

    private boolean isEasy(String password) {
        if (password.codePoints().distinct().count() < FEWEST_DIFFERENT_SIGNS) {
            return true;
        }
        String typed = password.toLowerCase(Locale.ROOT);
        return isMadeOfEasyWords(typed.replaceAll("[^\\p{L}\\p{N}]", ""))
                || isMadeOfEasyWords(lettersMeant(typed))
                || isMadeOfEasyWords(lettersMeant(typed.replaceAll("^[^\\p{L}]+|[^\\p{L}]+$", "")))
                || isMadeOfEasyWords(typed.replaceAll("[^\\p{L}]", ""));
    }

    /** Undoes the usual exchange of letters for digits and signs, and drops what is left of the latter. */
    private static String lettersMeant(String typed) {
        return typed.replace('0', 'o')
                .replace('1', 'i')
                .replace('3', 'e')
                .replace('4', 'a')
                .replace('5', 's')
                .replace('7', 't')
                .replace('@', 'a')
                .replace('$', 's')
                .replace('!', 'i')
                .replaceAll("[^\\p{L}]", "");
    }

    /** Whether listed words, put one after another, give the whole text: "passwordpassword" is no better than one. */
    private boolean isMadeOfEasyWords(String text) {
        boolean[] reached = new boolean[text.length() + 1];
        reached[0] = true;
        for (int end = 1; end <= text.length(); end++) {
            for (int start = 0; start < end && !reached[end]; start++) {
                reached[end] = reached[start] && easy.contains(text.substring(start, end));
            }
        }
        return !text.isEmpty() && reached[text.length()];
    }

    /** Whether nothing worth guessing is left once the person's own sign-in name and name are taken out. */
    private static boolean holdsOwnName(String password, String login, String name) {
        String rest = password.toLowerCase(Locale.ROOT);
        for (String own : (login + " " + name).toLowerCase(Locale.ROOT).split("[^\\p{L}\\p{N}]+", -1)) {
            if (own.length() >= SHORTEST_OWN_WORD) {
                rest = rest.replace(own, "");
            }
        }
        boolean something = rest.length() < password.length();
        return something && rest.replaceAll("[^\\p{L}]", "").length() < SHORTEST / 2;
    }

    private static Set<String> read() {
        try (InputStream in = PasswordRules.class.getResourceAsStream(LIST)) {
            if (in == null) {
                throw new IllegalStateException(LIST + " is missing from the program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.isBlank() && !line.startsWith("#"))
                    .map(String::strip)
                    .collect(Collectors.toUnmodifiableSet());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
