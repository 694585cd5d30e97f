package org.hoodkeeper.web.worker;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.web.ReasonLine;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What the worker's pages say of an answer and of the worker's own records. */
@Component
class TodayLines {

    private static final int MOST = 100;

    private final ReasonWords reasons;
    private final Words words;
    private final Show show;
    private final Kit kit;
    private final SiteBoards boards;
    private final History history;
    private final SiteRegister sites;

    TodayLines(
            ReasonWords reasons,
            Words words,
            Show show,
            Kit kit,
            SiteBoards boards,
            History history,
            SiteRegister sites) {
        this.reasons = reasons;
        this.words = words;
        this.show = show;
        this.kit = kit;
        this.boards = boards;
        this.history = history;
        this.sites = sites;
    }

    /** What stands in the way first. */
    List<ReasonLine> reasons(Answer answer) {
        List<Reason> sorted = answer.reasons().stream()
                .sorted(Comparator.comparing(reason -> -reason.result().ordinal()))
                .toList();
        return reasons.lines(sorted, answer.clearBy());
    }

    List<String> actions(Answer answer) {
        return answer.clearBy().stream().map(reasons::clearBy).distinct().toList();
    }

    @Nullable String dueSoon(Answer answer) {
        return answer.dueSoon() == null
                ? null
                : words.say(Words.kindKey(answer.dueSoon().kind())) + ", "
                        + show.day(answer.dueSoon().lastDay());
    }

    List<String> ways(SiteId site, Answer answer) {
        return answer.alternatives().stream()
                .map(way -> way(site, way.set(), way.task()))
                .toList();
    }

    private String way(SiteId site, @Nullable SetId set, @Nullable TaskId task) {
        if (task != null) {
            return words.say("today.way.task", boards.taskCode(site, task));
        }
        return set == null ? "" : words.say("today.way.set", kit.set(site, set).label());
    }

    /** What the maker says of a set's model, as known now; none where nothing is on record. */
    @Nullable ModelData model(SiteId site, String label, Instant now) {
        SetData data = newest(site, kit.set(site, label).id(), now, SetData.class);
        return data == null ? null : newest(site, data.model(), now, ModelData.class);
    }

    private <F> @Nullable F newest(SiteId site, org.hoodkeeper.kernel.Id subject, Instant now, Class<F> type) {
        return history.of(site, subject, now, 500).stream()
                .filter(History.Version::isCurrent)
                .filter(version -> type.isInstance(version.told().fact())
                        && !version.told().from().isAfter(now))
                .map(version -> type.cast(version.told().fact()))
                .findFirst()
                .orElse(null);
    }

    /** The number the flow must show. */
    @Nullable String minimumFlow(SiteId site, String label, Instant now) {
        ModelData model = model(site, label, now);
        BigDecimal minimum = model == null ? null : model.minimumFlow();
        return minimum == null ? null : show.figure(minimum, "L/min");
    }

    /** One record about the worker: what, when it was true, when the site was told. */
    record Line(String kind, @Nullable String scope, String when, String told, boolean struck) {}

    List<Line> told(Viewer viewer, WorkerId worker, Instant now) {
        ZoneId zone = sites.get(viewer.site()).zone();
        return history.of(viewer.site(), worker, now, MOST).stream()
                .map(version -> new Line(
                        words.say(Words.kindKey(version.kind())),
                        version.told().scope(),
                        show.instant(version.told().from(), zone),
                        show.instant(version.told().recordedAt(), zone),
                        !version.isCurrent()))
                .toList();
    }
}
