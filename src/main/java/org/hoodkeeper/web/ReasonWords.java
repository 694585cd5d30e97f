package org.hoodkeeper.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.Provenance;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/**
 * A judgement's reasons in words: under {@code reason.<requirement>.<why>}, else what the why says for any requirement under
 * {@code reason.<why>}.
 */
@Component("reasons")
public class ReasonWords {

    /** How the marks of the page call results that a page does not tell apart. */
    private static final Map<Result, String> SHOWN = Map.of(Result.NO_SET_CHOSEN, "NOT_APPLICABLE");

    private final MessageSource messages;
    private final Words words;
    private final Show show;
    private final PlaceWords places;

    ReasonWords(MessageSource messages, Words words, Show show, PlaceWords places) {
        this.messages = messages;
        this.words = words;
        this.show = show;
        this.places = places;
    }

    public String requirement(Reason reason) {
        return words.say(Words.kindKey(reason.kind()));
    }

    /** The sentence of one reason, with its figures. */
    public String why(Reason reason) {
        String sentence = words.say(
                key(reason), reason.details().stream().map(this::named).toArray());
        for (Object detail : reason.details()) {
            if (detail instanceof Mark mark && isToBeShown(mark)) {
                sentence = sentence + " " + words.say("reason.figure.mark", mark);
            }
        }
        return sentence;
    }

    private String key(Reason reason) {
        String own = "reason." + reason.kind() + "." + reason.why();
        // behind the wall a limit keeps its figure and loses the instant at which it is reached
        if (reason.details().size() == 1 && isKnown(own + ".FIGURE")) {
            return own + ".FIGURE";
        }
        // the number of what was measured comes last, where it is on record
        boolean numbered = !reason.details().isEmpty()
                && reason.details().get(reason.details().size() - 1) instanceof String;
        if (numbered && isKnown(own + ".NUMBERED")) {
            return own + ".NUMBERED";
        }
        return isKnown(own) ? own : "reason." + reason.why();
    }

    private boolean isKnown(String key) {
        return messages.getMessage(key, null, null, LocaleContextHolder.getLocale()) != null;
    }

    /** Many reasons name the place of a part, by the model's own name for it. */
    private @Nullable Object named(@Nullable Object detail) {
        return detail instanceof String text ? places.of(text) : detail;
    }

    /** A figure that was not read in its source shows so. */
    private static boolean isToBeShown(Mark mark) {
        return mark != Mark.VERIFIED && mark != Mark.COMPUTED;
    }

    /** "Examine the set (storekeeper)". */
    public String clearBy(ClearBy action) {
        return action.at() == null
                ? words.say("reason.clearBy", action.action(), action.who())
                : words.say("reason.clearBy.at", action.action(), action.who(), action.at());
    }

    /** A line for each reason, with what clears it where it bars. */
    public List<ReasonLine> lines(List<Reason> reasons, List<ClearBy> clearBy) {
        List<ReasonLine> lines = new ArrayList<>();
        for (Reason reason : reasons) {
            lines.add(new ReasonLine(
                    SHOWN.getOrDefault(reason.result(), reason.result().name()),
                    requirement(reason),
                    why(reason),
                    null,
                    null,
                    reason.demand() == null ? null : source(reason.demand()),
                    reason.goodUntil() == null ? null : show.until(reason.goodUntil()),
                    cleared(reason, clearBy)));
        }
        return lines;
    }

    /** Where the rule stands; how well that is vouched for, unless it was read in the source itself; that the site decided. */
    private String source(InForce.Demand demand) {
        Provenance at = demand.provenance();
        String place = words.say("reason.source", at.clause(), at.source());
        if (isToBeShown(at.mark())) {
            place = words.say("reason.source.mark", place, at.mark());
        }
        return demand.decisionKey() == null
                ? place
                : words.say(demand.decided() == null ? "reason.source.default" : "reason.source.decided", place);
    }

    /** What this very reason asks for: two of one requirement may ask for different things. */
    private @Nullable String cleared(Reason reason, List<ClearBy> clearBy) {
        if (!reason.result().bars()) {
            return null;
        }
        for (ClearBy action : clearBy) {
            if (action.clears(reason)) {
                return clearBy(action);
            }
        }
        return null;
    }
}
