package org.hoodkeeper.web.oversight;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.IncidentFiles;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.hygienist.SheetWords;
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
    private final TaskSheets sheets;
    private final SheetWords figures;
    private final Words words;
    private final Show show;
    private final MessageSource messages;

    IncidentLines(Names names, TaskSheets sheets, SheetWords figures, Words words, Show show, MessageSource messages) {
        this.names = names;
        this.sheets = sheets;
        this.figures = figures;
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
    public record Line(
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
        return file.events().stream()
                .map(event -> line(visit, file, event, book))
                .toList();
    }

    private Line line(Visit visit, IncidentFiles.File file, IncidentFiles.Event event, Names.Book book) {
        History.Version version = event.version();
        UUID subject = version.told().subject();
        UUID item = version.told().item();
        IncidentFiles.Judged judged = event.judged();
        return new Line(
                version.told().from(),
                version.told().until(),
                words.say(Words.kindKey(event.kind())),
                what(visit, file, version, book),
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

    private String what(Visit visit, IncidentFiles.File file, History.Version version, Names.Book book) {
        Fact fact = version.told().fact();
        String scope = version.told().scope();
        if (fact instanceof TaskBasis basis) {
            return assessment(visit, file, version, basis, book);
        }
        if (fact instanceof ExposureResult result) {
            return result(String.valueOf(scope), result);
        }
        if (fact instanceof Limit limit) {
            return limit(String.valueOf(scope), limit);
        }
        if (fact instanceof MeasuredCondition condition) {
            return words.say("incident.condition." + condition.quantity(), condition.value());
        }
        List<String> said = new ArrayList<>();
        if (scope != null && !isId(scope)) {
            said.add(scope);
        }
        said.addAll(fields(fact));
        return String.join(", ", said);
    }

    /** A batch or a recall is named by what it did, never by its number. */
    private static boolean isId(String scope) {
        return scope.matches("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");
    }

    /** "respirable silica 1.42 mg/m³: 14.2 times the limit; effects add up; …" */
    private String assessment(
            Visit visit, IncidentFiles.File file, History.Version version, TaskBasis basis, Names.Book book) {
        List<String> said = new ArrayList<>();
        said.add(basis.exposures().stream()
                .map(one -> one.substance() + " " + show.figure(one.value(), one.unit()))
                .collect(Collectors.joining(", ")));
        if (version.isCurrent()) {
            // where it began earlier, a limit may have come since: what counted in the period is what matters to it
            Instant begun = version.told().from();
            Instant from = begun.isBefore(file.asked().from()) ? file.asked().from() : begun;
            Moment moment = new Moment(from, file.knownAt(), Moment.View.AS_KNOWN_NOW);
            BigDecimal stated = sheets.of(
                            visit.viewer().site(), book.of(version.told().subject()), moment)
                    .stated();
            said.add(
                    stated == null
                            ? words.say("incident.basis.unknown")
                            : words.say("incident.basis.times", figures.shown(stated)));
        }
        said.add(constant(basis.mixture()));
        said.add(constant(basis.atmosphere()));
        said.add(constant(basis.workRate()));
        if (basis.shiftHours() != null) {
            said.add(words.say("incident.basis.shift", basis.shiftHours()));
        }
        if (basis.lastDay() != null) {
            said.add(words.say("incident.basis.review", basis.lastDay()));
        }
        return String.join("; ", said);
    }

    private String result(String substance, ExposureResult result) {
        List<String> said = new ArrayList<>();
        String figure = show.figure(result.value(), result.unit());
        said.add(substance + " " + (result.belowDetection() ? words.say("exposureSheet.below", figure) : figure));
        said.add(constant(result.against()));
        if (result.minutes() != null) {
            said.add(words.say("exposureSheet.minutes", result.minutes()));
        }
        return String.join(", ", said);
    }

    private String limit(String substance, Limit limit) {
        List<String> said = new ArrayList<>();
        said.add(substance + " " + show.figure(limit.value(), limit.unit()));
        further(said, "incident.limit.shortTerm", limit.shortTerm(), limit);
        further(said, "incident.limit.ceiling", limit.ceiling(), limit);
        further(said, "exposureSheet.limit.idlh", limit.idlh(), limit);
        further(said, "incident.limit.filter", limit.filterLimit(), limit);
        said.add(limit.source());
        said.add(constant(limit.mark()));
        return String.join("; ", said);
    }

    private void further(List<String> said, String code, @Nullable BigDecimal value, Limit limit) {
        if (value != null) {
            said.add(words.say(code, show.figure(value, limit.unit())));
        }
    }

    /** The fields that say something without a sentence around them, each with its unit. */
    private List<String> fields(Fact fact) {
        List<String> said = new ArrayList<>();
        for (RecordComponent field : fact.getClass().getRecordComponents()) {
            if (Kind.of(fact).privateFields().contains(field.getName())) {
                continue;
            }
            ReflectionUtils.makeAccessible(field.getAccessor());
            Object value = ReflectionUtils.invokeMethod(field.getAccessor(), fact);
            if (value instanceof Enum<?> constant) {
                said.add(constant(constant));
            } else if (value != null && PLAIN.contains(field.getName())) {
                said.add(words.say("incident.field." + field.getName(), value));
            }
        }
        return said;
    }

    private String constant(Enum<?> constant) {
        String found = messages.getMessage(Words.kindKey(constant), null, "", LocaleContextHolder.getLocale());
        return found == null || found.isEmpty()
                ? constant.name().toLowerCase(Locale.ROOT).replace('_', ' ')
                : found;
    }
}
