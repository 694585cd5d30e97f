package org.hoodkeeper.web.record;

import java.time.LocalDate;
import java.time.Period;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.oversight.KeepUntil;
import org.hoodkeeper.rules.Provenance;
import org.hoodkeeper.rules.RetentionRule;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Says how long records are kept, and by which rule. */
@Component
public class Keeping {

    private final Words words;
    private final Show show;

    Keeping(Words words, Show show) {
        this.words = words;
        this.show = show;
    }

    /** One rule in words, with where it stands. */
    public record Line(String howLong, String until, Provenance provenance) {}

    /** Until when a record is kept, in one line. */
    public String until(KeepUntil kept) {
        String rules = kept.isKnown() ? until(kept.lastDay()) : words.say("keep.unknown");
        if (kept.isHeld()) {
            return words.say("keep.held", rules);
        }
        LocalDate last = kept.lastDay();
        return last == null || kept.inUse() == null
                ? rules
                : words.say("keep.inUse", rules, words.say(Words.kindKey(kept.inUse())));
    }

    private String until(@Nullable LocalDate last) {
        return last == null ? words.say("keep.noEnd") : show.untilEndOf(last);
    }

    /** Each rule that applies to a record. */
    public List<Line> lines(KeepUntil kept) {
        return kept.applied().stream()
                .map(one -> new Line(
                        howLong(one.rule()),
                        until(one.retention().lastDay()),
                        one.rule().provenance()))
                .toList();
    }

    /** How long, from which day, and for which records of the kind. */
    public String howLong(RetentionRule rule) {
        Period span = rule.span();
        String counted = span == null || span.isZero()
                ? words.say("keep.until." + rule.from())
                : words.say("keep.from." + rule.from(), span(span));
        return rule.which() == RetentionRule.Which.ALL ? counted : words.say("keep.which." + rule.which(), counted);
    }

    private String span(Period span) {
        List<String> parts = new ArrayList<>();
        add(parts, "keep.years", span.getYears());
        add(parts, "keep.months", span.getMonths());
        add(parts, "keep.days", span.getDays());
        return String.join(" ", parts);
    }

    private void add(List<String> parts, String key, int count) {
        if (count != 0) {
            parts.add(words.say(key, count));
        }
    }
}
