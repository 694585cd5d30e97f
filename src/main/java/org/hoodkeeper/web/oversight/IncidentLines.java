package org.hoodkeeper.web.oversight;

import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.IncidentFiles;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Names;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;
import org.springframework.util.ReflectionUtils;

/** An incident file in words: results, figures and codes, never free text, and of what is medical the outcome alone. */
@Component
class IncidentLines {

    /** Fields that say something without a sentence around them. */
    private static final Set<String> PLAIN = Set.of(
            "reading",
            "corrected",
            "minimum",
            "value",
            "unit",
            "part",
            "lot",
            "serial",
            "place",
            "edition",
            "product",
            "lastDay",
            "factor",
            "size",
            "store",
            "reviewOn",
            "maxWearMinutes",
            "maxWbgt",
            "chargePercent",
            "substance");

    private final Names names;
    private final Words words;
    private final Show show;
    private final MessageSource messages;

    IncidentLines(Names names, Words words, Show show, MessageSource messages) {
        this.names = names;
        this.words = words;
        this.show = show;
        this.messages = messages;
    }

    /**
     * One line of the file.
     *
     * @param late days late; 0 when told in time
     * @param fate what became of the record; empty while it stands
     * @param said what the screen said, of a wear; none of other records
     */
    record Line(
            Instant at,
            @Nullable Instant until,
            String kind,
            String what,
            String about,
            @Nullable String with,
            Instant told,
            String by,
            long late,
            boolean struck,
            String fate,
            @Nullable Verdict said,
            @Nullable Verdict known,
            boolean wear,
            String barred,
            boolean decides,
            String record) {}

    List<Line> of(Visit visit, IncidentFiles.File file) {
        Names.Book book = names.of(visit);
        return file.events().stream().map(event -> line(visit, event, book)).toList();
    }

    private Line line(Visit visit, IncidentFiles.Event event, Names.Book book) {
        History.Version version = event.version();
        UUID subject = version.told().subject();
        UUID item = version.told().item();
        IncidentFiles.Judged judged = event.judged();
        return new Line(
                version.told().from(),
                version.told().until(),
                words.say(Words.kindKey(event.kind())),
                what(version),
                subject.equals(visit.viewer().site().value()) ? visit.siteName() : book.of(subject),
                item == null ? null : book.find(item),
                version.told().recordedAt(),
                book.account(version.toldBy()),
                event.late(),
                event.isStruck(),
                fate(version),
                judged == null ? null : judged.said(),
                judged == null ? null : judged.known(),
                judged != null,
                judged == null ? "" : barred(judged),
                event.decides(),
                version.told().id().toString());
    }

    private String fate(History.Version version) {
        if (version.withdrawal()) {
            return words.say("incident.fate.WITHDRAWAL");
        }
        if (version.replacedBy() != null) {
            return words.say("incident.fate.REPLACED");
        }
        return version.told().corrects() == null ? "" : words.say("incident.fate.CORRECTION");
    }

    private String barred(IncidentFiles.Judged judged) {
        Set<String> all = new LinkedHashSet<>(judged.barredThen());
        all.addAll(judged.barredNow());
        return all.stream()
                .map(kind -> words.say("kinds.RequirementKind." + kind))
                .collect(Collectors.joining(", "));
    }

    private String what(History.Version version) {
        Fact fact = version.told().fact();
        List<String> said = new ArrayList<>();
        if (version.told().scope() != null) {
            said.add(version.told().scope());
        }
        Map<String, Object> plain = FactJson.values(fact);
        for (RecordComponent field : fact.getClass().getRecordComponents()) {
            if (Kind.of(fact).privateFields().contains(field.getName())) {
                continue;
            }
            ReflectionUtils.makeAccessible(field.getAccessor());
            Object value = ReflectionUtils.invokeMethod(field.getAccessor(), fact);
            if (value instanceof Enum<?> constant) {
                said.add(constant(constant));
            } else if (value instanceof LocalDate day && PLAIN.contains(field.getName())) {
                said.add(show.day(day));
            } else if (PLAIN.contains(field.getName()) && plain.get(field.getName()) != null) {
                said.add(String.valueOf(plain.get(field.getName())));
            }
        }
        return String.join(", ", said);
    }

    private String constant(Enum<?> constant) {
        String found = messages.getMessage(Words.kindKey(constant), null, "", LocaleContextHolder.getLocale());
        return found == null || found.isEmpty()
                ? constant.name().toLowerCase(Locale.ROOT).replace('_', ' ')
                : found;
    }
}
