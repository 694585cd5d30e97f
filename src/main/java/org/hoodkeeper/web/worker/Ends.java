package org.hoodkeeper.web.worker;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.springframework.stereotype.Component;

/** When things end, as short as a phone's screen likes: the time alone where it is today. */
@Component
class Ends {

    private final ReasonWords reasons;
    private final Words words;
    private final Show show;

    Ends(ReasonWords reasons, Words words, Show show) {
        this.reasons = reasons;
        this.words = words;
        this.show = show;
    }

    /** What ends, and when. */
    public record End(String what, String when) {}

    /** "until 14:00", or with the day where it is not today's. */
    String until(Instant excluded, Instant now, ZoneId zone) {
        boolean today =
                excluded.atZone(zone).toLocalDate().equals(now.atZone(zone).toLocalDate());
        return today ? words.say("today.until.clock", clock(excluded, now, zone)) : until(excluded, zone);
    }

    String until(Instant excluded, ZoneId zone) {
        return show.until(excluded, zone);
    }

    /** "14:00", or with the day where it is not today's, or with the offset where that time occurs twice. */
    String clock(Instant at, Instant now, ZoneId zone) {
        boolean today = at.atZone(zone).toLocalDate().equals(now.atZone(zone).toLocalDate());
        boolean twice = zone.getRules()
                        .getValidOffsets(at.atZone(zone).toLocalDateTime())
                        .size()
                > 1;
        return today && !twice ? show.time(at.atZone(zone).toLocalTime()) : show.instant(at, zone);
    }

    /** Everything that is in order and will end, the soonest first. */
    List<End> of(Answer answer, Instant now, ZoneId zone) {
        List<Dated> dated = new ArrayList<>();
        for (Reason reason : answer.reasons()) {
            Instant until = reason.goodUntil();
            if (until != null && until.isBefore(Instant.MAX) && !reason.result().bars()) {
                dated.add(new Dated(reasons.requirement(reason), until));
            }
        }
        return dated.stream()
                .sorted(Comparator.comparing(Dated::until))
                .map(one -> new End(one.what(), until(one.until(), now, zone)))
                .distinct()
                .toList();
    }

    private record Dated(String what, Instant until) {}
}
