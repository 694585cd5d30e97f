package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.store.Counter;
import org.hoodkeeper.store.NotCleared;
import org.hoodkeeper.store.Readying;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.ReasonWords;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Hands a set to a person for a task. The engine decides; a refusal shows every reason and other ready sets. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/issue")
class IssueController {

    private static final String VIEW = "store/issue";

    /** What the store puts right in a known time. */
    private static final Set<RequirementKind> CARE = EnumSet.of(RequirementKind.CLEAN, RequirementKind.FLOW);

    private final Desk desk;
    private final Answers answers;
    private final Counter counter;
    private final Programme programme;
    private final People people;
    private final ReasonWords reasons;
    private final Readying readying;

    IssueController(
            Desk desk,
            Answers answers,
            Counter counter,
            Programme programme,
            People people,
            ReasonWords reasons,
            Readying readying) {
        this.desk = desk;
        this.answers = answers;
        this.counter = counter;
        this.programme = programme;
        this.people = people;
        this.reasons = reasons;
        this.readying = readying;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("tasks")
    List<Choice> tasks(Visit visit) {
        return programme.tasks(visit.viewer().site()).stream()
                .map(task -> Choice.named(task.code(), task.code()))
                .toList();
    }

    @ModelAttribute("spans")
    List<Choice> spans() {
        return Stream.of("2", "4", "6", "8", "10", "12")
                .map(hours -> Choice.said(hours, "issue.hours." + hours))
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(
            @RequestParam(required = false) @Nullable String worker,
            @RequestParam(required = false) @Nullable String task,
            @RequestParam(required = false) @Nullable Integer hours,
            Model model) {
        model.addAttribute("issue", new IssueForm(worker, task, hours));
        return VIEW;
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("issue") IssueForm form,
            BindingResult typed) {
        try {
            return desk.take(
                    visit,
                    request,
                    typed,
                    new DeskSheet(
                            "issue",
                            VIEW,
                            () -> check(visit, set, form),
                            () -> counter.issue(visit.viewer(), plan(set, form)),
                            "/sites/" + visit.siteCode() + "/sets/" + set.label()));
        } catch (NotCleared no) {
            return refused(visit, set, no.answer());
        }
    }

    private static Counter.Plan plan(ShelfSet set, IssueForm form) {
        return new Counter.Plan(
                set.id(),
                Objects.requireNonNull(form.worker()),
                Objects.requireNonNull(form.task()),
                Duration.ofHours(Objects.requireNonNull(form.hours())));
    }

    private List<Line> check(Visit visit, ShelfSet set, IssueForm form) {
        Answer answer = counter.look(visit.viewer(), plan(set, form));
        Answers.Lines lines = answers.of("issue")
                .text(
                        "person",
                        people.get(visit.viewer().site(), answer.question().worker())
                                .name())
                .text("task", form.task())
                .said("until", "issue.until.shown", answer.question().wear().until())
                .decides(
                        "verdict",
                        answer.verdict() == Verdict.CLEARED ? "clear" : "half",
                        "verdict." + answer.verdict());
        answer.reasons().stream()
                .filter(reason -> reason.result() == Result.MET_WITH_CONDITIONS)
                .forEach(reason -> lines.text("condition", reasons.why(reason)));
        answer.reasons().stream()
                .filter(reason -> reason.result() == Result.TO_DO_AT_START)
                .filter(reason -> reason.why() != Why.NOT_ISSUED)
                .forEach(reason -> lines.text("atStart", reasons.why(reason)));
        return lines.all();
    }

    private ModelAndView refused(Visit visit, ShelfSet set, Answer answer) {
        ModelAndView page = new ModelAndView("store/not-cleared", HttpStatus.UNPROCESSABLE_CONTENT);
        page.addObject(
                "person", people.get(visit.viewer().site(), answer.question().worker()));
        List<Reason> barring = answer.reasons().stream()
                .filter(reason -> reason.result().bars())
                .toList();
        page.addObject("barring", reasons.lines(barring, answer.clearBy()));
        page.addObject("lines", reasons.lines(answer.reasons(), answer.clearBy()));
        boolean care = barring.stream().anyMatch(reason -> CARE.contains(reason.kind()));
        page.addObject(
                "ready",
                care
                        ? readying.earliest(
                                visit.viewer().site(), set, answer.question().knownAt())
                        : null);
        page.addObject("others", answer.alternatives());
        return page;
    }
}
