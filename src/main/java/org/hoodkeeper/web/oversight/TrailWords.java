package org.hoodkeeper.web.oversight;

import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.oversight.Trail;
import org.hoodkeeper.oversight.TrailSort;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Names;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Puts a line of the audit trail into words. */
@Component
class TrailWords {

    private final Words words;

    TrailWords(Words words) {
        this.words = words;
    }

    /**
     * @param by who did it, with the sign-in name
     * @param about what it was done to; empty where it is nothing that has a name
     * @param place its place in its chain
     */
    public record Shown(
            Trail.Line line, String by, @Nullable String login, String what, String about, String place) {}

    Shown shown(Visit visit, Trail.Line line, Names.Book book) {
        return new Shown(
                line,
                line.actor() == null ? words.say(nobody(line)) : line.actor(),
                line.login(),
                what(line),
                about(visit, line, book),
                line.position() == null
                        ? words.say("trail.notSealed." + line.link())
                        : words.say("trail.sealed." + line.link(), line.position()));
    }

    /** Who acted where no account did: the service itself, as when it lays the demo's records, or somebody who never signed in. */
    private static String nobody(Trail.Line line) {
        return TrailSort.WRITE.kinds().contains(line.kind())
                        || TrailSort.ACCOUNT.kinds().contains(line.kind())
                ? "trail.service"
                : "trail.nobody";
    }

    /** What the reader's words stand for. @return null where nothing was typed */
    Trail.@Nullable Text text(@Nullable String typed) {
        if (typed == null) {
            return null;
        }
        String part = typed.toLowerCase(Locale.ROOT);
        Set<String> kinds = new HashSet<>();
        for (String kind : TrailSort.allKinds()) {
            if (words.say("trail.kind." + kind, "", "").toLowerCase(Locale.ROOT).contains(part)) {
                kinds.add(kind);
            }
        }
        Set<Kind> records = EnumSet.noneOf(Kind.class);
        for (Kind kind : Kind.values()) {
            if (words.say(Words.kindKey(kind)).toLowerCase(Locale.ROOT).contains(part)) {
                records.add(kind);
            }
        }
        return new Trail.Text(typed, kinds, records);
    }

    private String what(Trail.Line line) {
        String what = line.records() == 0
                ? ""
                : line.kinds().isEmpty()
                        ? words.say("trail.records", line.records())
                        : line.kinds().stream()
                                .map(kind -> words.say(Words.kindKey(kind)))
                                .collect(Collectors.joining(", "));
        return words.say("trail.kind." + line.kind(), what);
    }

    private String about(Visit visit, Trail.Line line, Names.Book book) {
        UUID about = line.about();
        if (about == null) {
            return "";
        }
        if (about.equals(visit.viewer().site().value())) {
            return visit.siteName();
        }
        String name = book.find(about);
        return name == null ? "" : name;
    }

    /** Everything of that name, and the id itself where one was typed. @return null where nothing was typed */
    static @Nullable Set<UUID> called(@Nullable String typed, Names.Book book) {
        if (typed == null) {
            return null;
        }
        Set<UUID> called = new HashSet<>(book.called(typed));
        if (typed.matches("[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}")) {
            called.add(UUID.fromString(typed));
        }
        return called;
    }

    static List<String> header() {
        return List.of("at", "who", "sign_in", "kind", "what", "about", "detail", "source", "chain", "position", "id");
    }
}
