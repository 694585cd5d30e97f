package org.hoodkeeper.web.officer;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.oversight.Differences;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.Board;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.oversight.DifferenceLines;
import org.hoodkeeper.web.record.Doing;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;

/** The file of one person: what they may do, every reason, and what was told about them. */
@Controller
class PersonController {

    private final SiteBoards boards;
    private final Differences differences;
    private final DifferenceLines differenceLines;
    private final Questions questions;
    private final People people;
    private final Kit kit;
    private final PersonHistory history;
    private final ReasonWords reasons;
    private final Words words;
    private final Show show;
    private final Refusals refusals;
    private final AuditTrail audit;

    PersonController(
            SiteBoards boards,
            Differences differences,
            DifferenceLines differenceLines,
            Questions questions,
            People people,
            Kit kit,
            PersonHistory history,
            ReasonWords reasons,
            Words words,
            Show show,
            Refusals refusals,
            AuditTrail audit) {
        this.boards = boards;
        this.differences = differences;
        this.differenceLines = differenceLines;
        this.questions = questions;
        this.people = people;
        this.kit = kit;
        this.history = history;
        this.reasons = reasons;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
        this.audit = audit;
    }

    @Allowed(
            value = {
                Role.OFFICER,
                Role.SUPERVISOR,
                Role.STOREKEEPER,
                Role.HEALTH,
                Role.TRAINER,
                Role.HYGIENIST,
                Role.EMPLOYER
            },
            self = true)
    @GetMapping("/sites/{site}/workers/{number}")
    String show(
            Visit visit,
            @PathVariable String number,
            @ModelAttribute("asked") PersonForm asked,
            BindingResult shape,
            Model page) {
        Viewer viewer = visit.viewer();
        Worker worker = people.byNumber(viewer.site(), number);
        Instant now = boards.now();
        Moment moment = moment(visit, asked, shape, now);
        Board board = boards.of(viewer, moment, worker);
        if (board.rows().isEmpty()) {
            throw new NotFound("worker.unknown", number);
        }
        audit.seen(viewer, worker.id(), "workers");
        page.addAttribute("worker", worker);
        page.addAttribute("moment", moment);
        page.addAttribute("rows", board.rows());
        BoardRow chosen = chosen(board, asked.task());
        page.addAttribute("chosen", chosen);
        Answer answer = answer(viewer, worker, chosen, moment);
        page.addAttribute("answer", answer);
        page.addAttribute("sentence", sentence(worker, chosen, answer, visit));
        page.addAttribute(
                "lines", answer == null ? List.of() : reasons.lines(worstFirst(answer.reasons()), answer.clearBy()));
        page.addAttribute(
                "actions",
                answer == null
                        ? List.of()
                        : answer.clearBy().stream()
                                .map(reasons::clearBy)
                                .distinct()
                                .toList());
        page.addAttribute("ways", answer == null ? List.of() : ways(answer));
        page.addAttribute(
                "dueSoon",
                answer == null || answer.dueSoon() == null
                        ? null
                        : words.say(Words.kindKey(answer.dueSoon().kind())) + ", "
                                + show.day(answer.dueSoon().lastDay()));
        if (answer != null) {
            page.addAttribute(
                    "reasonsCaption",
                    words.say("person.reasons", taskCode(chosen), show.instant(moment.at(), visit.zone())));
            page.addAttribute("rules", String.join(", ", answer.ruleSets()));
            page.addAttribute(
                    "year",
                    answer.yearReadings().stream()
                            .map(reading -> words.say("person.year." + reading.code()))
                            .collect(Collectors.joining(", ")));
        }
        page.addAttribute("doings", viewer.isSelf(worker.id()) ? List.of() : Doing.ofPerson(viewer));
        page.addAttribute("history", history.of(viewer, worker, moment.knownAt()));
        if (moment.isPast(now)) {
            page.addAttribute(
                    "difference",
                    differenceLines.of(
                            visit, differences.ofPerson(viewer, worker, moment, now, inHand(viewer, board))));
        }
        page.addAttribute("officer", viewer.is(Role.OFFICER));
        return "officer/person";
    }

    /** What stands in the way first, then conditions, then what is still to do; within these the order of judging. */
    private static List<Reason> worstFirst(List<Reason> reasons) {
        return reasons.stream()
                .sorted(Comparator.comparing(PersonController::rank))
                .toList();
    }

    private static int rank(Reason reason) {
        return switch (reason.result()) {
            case NOT_MET, UNKNOWN -> 0;
            case MET_WITH_CONDITIONS -> 1;
            case TO_DO_AT_START -> 2;
            case MET -> 3;
            case NOT_APPLICABLE, NO_SET_CHOSEN -> 4;
        };
    }

    private static String taskCode(BoardRow row) {
        return row.task() == null ? "" : row.task().code();
    }

    private Moment moment(Visit visit, PersonForm asked, BindingResult shape, Instant now) {
        try {
            return asked.moment().moment(visit.zone(), now);
        } catch (Refused refused) {
            refusals.show(refused, shape, "at");
            return Moment.of(null, false, now);
        }
    }

    private List<UUID> inHand(Viewer viewer, Board board) {
        return board.rows().stream()
                .filter(row -> row.set() != null)
                .map(row ->
                        kit.set(viewer.site(), String.valueOf(row.set())).id().value())
                .distinct()
                .toList();
    }

    private static BoardRow chosen(Board board, @Nullable String task) {
        for (BoardRow row : board.rows()) {
            if (row.task() != null && row.task().code().equals(task)) {
                return row;
            }
        }
        return board.rows().get(0);
    }

    private @Nullable Answer answer(Viewer viewer, Worker worker, BoardRow row, Moment moment) {
        if (row.task() == null || row.model() == null) {
            return null;
        }
        Interval wear = new Interval(moment.at(), moment.at().plus(Duration.ofMinutes(1)));
        Question question = row.set() != null
                ? Question.ofSet(
                        viewer.site(),
                        worker.id(),
                        row.task().id(),
                        kit.set(viewer.site(), row.set()).id(),
                        wear,
                        moment.knownAt())
                : Question.ofModel(
                        viewer.site(),
                        worker.id(),
                        row.task().id(),
                        kit.model(viewer.site(), row.model()).id(),
                        row.size() == null ? "" : row.size(),
                        wear,
                        moment.knownAt());
        return questions.ask(viewer, moment.isAtTheDoor() ? question.atTheDoor() : question);
    }

    private String sentence(Worker worker, BoardRow row, @Nullable Answer answer, Visit visit) {
        if (row.task() == null) {
            return words.say("person.sentence.notPosted", worker.name());
        }
        if (answer == null) {
            return words.say(
                    "person.sentence.nothing", worker.name(), row.task().code());
        }
        String with = row.set() == null
                ? words.say("person.with.model", row.model())
                : words.say("person.with.set", row.set());
        return words.say(
                        "person.sentence." + answer.verdict(),
                        worker.name(),
                        row.task().code(),
                        with)
                + window(answer, visit);
    }

    private String window(Answer answer, Visit visit) {
        Answer.Window window = answer.window();
        if (window == null || window.interval().until().equals(Instant.MAX) || window.endedBy() == null) {
            return "";
        }
        return " "
                + words.say(
                        "person.window",
                        show.until(window.interval().until(), visit.zone()),
                        words.say("endedBy." + window.endedBy()));
    }

    private List<String> ways(Answer answer) {
        return answer.alternatives().stream().map(this::way).toList();
    }

    private String way(Answer.Alternative way) {
        return way.taskCode() == null
                ? words.say("person.way.set", way.label())
                : words.say("person.way.task", way.taskCode());
    }
}
