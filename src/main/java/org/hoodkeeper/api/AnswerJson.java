package org.hoodkeeper.api;

import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Asked;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.YearReading;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** An answer as JSON: codes for programs, and the same in words for people. */
@Component
class AnswerJson {

    private final SiteRegister sites;
    private final ReasonWords words;
    private final Words said;

    AnswerJson(SiteRegister sites, ReasonWords words, Words said) {
        this.sites = sites;
        this.words = words;
        this.said = said;
    }

    /**
     * @param verdict CLEARED, CLEARED_WITH_CONDITIONS or NOT_CLEARED
     * @param window from the start until it would no longer be cleared
     * @param prefix when the whole plan is not cleared, the beginning of it that is
     * @param knownAt told by then decided
     */
    record Body(
            String verdict,
            @Nullable Due dueSoon,
            @Nullable Span window,
            @Nullable Span prefix,
            List<Line> reasons,
            List<Act> clearBy,
            List<Way> alternatives,
            Of question,
            Instant knownAt,
            List<String> ruleSets,
            String yearReading,
            List<String> yearReadings,
            List<String> decisions,
            String caution) {}

    record Of(
            String site,
            String worker,
            String task,
            @Nullable String set,
            @Nullable String model,
            @Nullable String size,
            Instant from,
            Instant until) {}

    record Due(String requirement, LocalDate lastDay) {}

    /** @param until excluded; none when nothing known ends it */
    record Span(
            Instant from,
            @Nullable Instant until,
            boolean conditions,
            @Nullable String endedBy) {}

    record Line(
            String requirement,
            String result,
            String why,
            String words,
            @Nullable String record,
            @Nullable By rule,
            @Nullable Instant since,
            @Nullable Instant goodUntil) {}

    record By(
            String code,
            String clause,
            String source,
            String mark,
            @Nullable String decision) {}

    record Act(
            String requirement,
            String action,
            String who,
            @Nullable Instant at,
            String words) {}

    /** @param task none where another set is the way */
    record Way(String set, @Nullable String task, String verdict) {}

    Body body(Viewer viewer, Asked asked, Answer answer) {
        Site site = sites.get(viewer.site());
        return new Body(
                answer.verdict().name(),
                answer.dueSoon() == null
                        ? null
                        : new Due(
                                answer.dueSoon().kind().name(), answer.dueSoon().lastDay()),
                span(answer.window()),
                span(answer.prefix()),
                lines(answer),
                answer.clearBy().stream().map(action -> act(action)).toList(),
                answer.alternatives().stream().map(AnswerJson::way).toList(),
                new Of(
                        site.code(),
                        asked.worker(),
                        asked.task(),
                        asked.set(),
                        asked.model(),
                        asked.size(),
                        asked.from(),
                        asked.until()),
                answer.question().knownAt().truncatedTo(ChronoUnit.MICROS),
                answer.ruleSets(),
                answer.yearReadings().get(0).code(),
                answer.yearReadings().stream().map(YearReading::code).toList(),
                answer.decisions().stream().map(Id::toString).toList(),
                said.say("chrome.caution.supports") + " " + said.say("chrome.caution.never"));
    }

    /** For a terminal: the verdict's word, the flag, the window, then a line for each requirement and each way out. */
    String sentences(Body body) {
        StringJoiner lines = new StringJoiner("\n", "", "\n");
        lines.add(body.verdict());
        if (body.dueSoon() != null) {
            lines.add("DUE_SOON " + body.dueSoon().requirement() + " "
                    + body.dueSoon().lastDay());
        }
        if (body.window() != null) {
            lines.add("WINDOW " + body.window().from() + " / "
                    + (body.window().until() == null ? "-" : body.window().until())
                    + (body.window().endedBy() == null
                            ? ""
                            : " " + body.window().endedBy()));
        }
        body.reasons().forEach(line -> lines.add(line.result() + " " + line.requirement() + ": " + line.words()));
        body.clearBy().forEach(act -> lines.add("> " + act.words()));
        body.alternatives()
                .forEach(way -> lines.add(
                        "> " + way.verdict() + " " + way.set() + (way.task() == null ? "" : " " + way.task())));
        lines.add("AS_KNOWN_AT " + body.knownAt() + " " + String.join(", ", body.ruleSets()) + " "
                + String.join(", ", body.yearReadings()));
        return lines.add(body.caution()).toString();
    }

    private static @Nullable Span span(Answer.@Nullable Window window) {
        if (window == null) {
            return null;
        }
        Instant until = window.interval().until();
        return new Span(
                window.interval().from(),
                until.equals(Instant.MAX) ? null : until,
                window.conditions(),
                window.endedBy() == null ? null : window.endedBy().name());
    }

    private List<Line> lines(Answer answer) {
        List<Line> lines = new ArrayList<>();
        for (int i = 0; i < answer.reasons().size(); i++) {
            Reason reason = answer.reasons().get(i);
            InForce.Demand demand = reason.demand();
            lines.add(new Line(
                    reason.kind().name(),
                    reason.result().name(),
                    reason.why().name(),
                    words.why(reason),
                    reason.record() == null ? null : reason.record().toString(),
                    demand == null ? null : by(demand),
                    reason.result().bars() ? answer.since().get(i) : null,
                    reason.goodUntil()));
        }
        return lines;
    }

    private static By by(InForce.Demand demand) {
        return new By(
                demand.code(),
                demand.provenance().clause(),
                demand.provenance().source(),
                demand.provenance().mark().name(),
                demand.decisionKey());
    }

    private Act act(ClearBy action) {
        return new Act(
                action.kind().name(), action.action().name(), action.who().name(), action.at(), words.clearBy(action));
    }

    private static Way way(Answer.Alternative way) {
        return new Way(way.label(), way.taskCode(), way.verdict().name());
    }
}
