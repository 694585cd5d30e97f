package org.hoodkeeper.web.officer;

import java.time.Instant;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.Differences;
import org.hoodkeeper.reporting.Board;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.web.PageAddress;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.SortLink;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.oversight.DifferenceLines;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** The site at a moment: everyone at every task. The address is the whole question, so that it can be kept and asked again. */
@Controller
class BoardController {

    private static final int ROWS = 50;

    private final SiteBoards boards;
    private final Differences differences;
    private final DifferenceLines lines;
    private final ReasonWords reasons;
    private final Words words;
    private final Show show;
    private final Refusals refusals;

    BoardController(
            SiteBoards boards,
            Differences differences,
            DifferenceLines lines,
            ReasonWords reasons,
            Words words,
            Show show,
            Refusals refusals) {
        this.differences = differences;
        this.lines = lines;
        this.boards = boards;
        this.reasons = reasons;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
    }

    @Allowed({Role.OFFICER, Role.SUPERVISOR, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.EMPLOYER})
    @GetMapping("/sites/{site}/board")
    String show(Visit visit, @ModelAttribute("asked") BoardForm asked, BindingResult shape, Model page) {
        Instant now = boards.now();
        Moment moment = moment(visit, asked, shape, now);
        SiteBoards.Compared compared = moment.isPast(now) ? boards.compared(visit.viewer(), moment.at(), now) : null;
        Board board = compared != null && moment.view() == Moment.View.AS_KNOWN_THEN
                ? compared.then()
                : boards.of(visit.viewer(), moment);
        List<BoardRow> fitting = asked.fitting(board);
        int from = Math.min(fitting.size(), asked.pagesBefore() * ROWS);
        int until = Math.min(fitting.size(), from + ROWS);
        page.addAttribute("moment", moment);
        if (compared != null) {
            page.addAttribute(
                    "difference", lines.of(visit, differences.ofBoard(visit.viewer(), compared, moment, now)));
        }
        page.addAttribute("sentence", sentence(board, moment, visit));
        page.addAttribute(
                "lines", fitting.subList(from, until).stream().map(this::line).toList());
        page.addAttribute("fitting", fitting.size());
        page.addAttribute("shown", until);
        page.addAttribute("total", board.rows().size());
        page.addAttribute("next", until < fitting.size() ? next(visit, asked) : null);
        page.addAttribute("tasks", tasks(board));
        page.addAttribute("kinds", kinds(board));
        String query = address(visit, asked).query();
        page.addAttribute("sortWorker", SortLink.of(query, "worker", "board.column.worker", asked.sort()));
        page.addAttribute("sortTask", SortLink.of(query, "task", "board.column.task", asked.sort()));
        page.addAttribute("sortVerdict", SortLink.of(query, "verdict", "board.column.verdict", asked.sort()));
        return "officer/board";
    }

    private Moment moment(Visit visit, BoardForm asked, BindingResult shape, Instant now) {
        try {
            return asked.moment().moment(visit.zone(), now);
        } catch (Refused refused) {
            refusals.show(refused, shape, "at");
            return Moment.of(null, false, now);
        }
    }

    private String sentence(Board board, Moment moment, Visit visit) {
        Map<Verdict, Integer> verdicts = board.verdicts();
        return words.say(
                "board.sentence." + moment.view(),
                verdicts.getOrDefault(Verdict.NOT_CLEARED, 0),
                verdicts.getOrDefault(Verdict.CLEARED, 0),
                verdicts.getOrDefault(Verdict.CLEARED_WITH_CONDITIONS, 0),
                show.instant(moment.at(), visit.zone()));
    }

    private BoardLine line(BoardRow row) {
        Assessment.Glance glance = row.glance();
        if (glance == null || glance.first() == null) {
            return new BoardLine(row, null, null, 0, dueSoon(glance));
        }
        int more = glance.first().result().bars() ? glance.open() - 1 : glance.open();
        return new BoardLine(
                row, reasons.requirement(glance.first()), reasons.why(glance.first()), more, dueSoon(glance));
    }

    private @Nullable String dueSoon(Assessment.@Nullable Glance glance) {
        return glance == null || glance.dueSoon() == null
                ? null
                : words.say(Words.kindKey(glance.dueSoon().kind())) + ", "
                        + show.day(glance.dueSoon().lastDay());
    }

    private static Map<String, Long> tasks(Board board) {
        Map<String, Long> tasks = new HashMap<>();
        for (BoardRow row : board.rows()) {
            if (row.task() != null) {
                tasks.merge(row.task().code(), 1L, Long::sum);
            }
        }
        return new TreeMap<>(tasks);
    }

    private static Map<RequirementKind, Long> kinds(Board board) {
        Map<RequirementKind, Long> kinds = new EnumMap<>(RequirementKind.class);
        for (BoardRow row : board.rows()) {
            Assessment.Glance glance = row.glance();
            if (glance != null && glance.first() != null) {
                kinds.merge(glance.first().kind(), 1L, Long::sum);
            }
        }
        return kinds;
    }

    private static String next(Visit visit, BoardForm asked) {
        return address(visit, asked).with("page", asked.pagesBefore() + 2).toString();
    }

    private static PageAddress address(Visit visit, BoardForm asked) {
        return PageAddress.of(visit, "/board")
                .with("at", asked.at())
                .with("known", asked.known())
                .with("task", asked.task())
                .with("verdict", asked.verdict())
                .with("reason", asked.reason())
                .with("q", asked.q())
                .with("sort", asked.sort());
    }
}
