package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletResponse;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.OnceOnly;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The worker goes in: the engine is asked once more, and a no comes with every reason. */
@Controller
@RequestMapping("/sites/{site}/today/enter")
class EnterController {

    private static final String VIEW = "worker/enter";

    private final Entrance entrance;
    private final OnceOnly onceOnly;
    private final Ends ends;
    private final ReasonWords reasons;
    private final Refusals refusals;
    private final Words words;

    EnterController(
            Entrance entrance, OnceOnly onceOnly, Ends ends, ReasonWords reasons, Refusals refusals, Words words) {
        this.entrance = entrance;
        this.onceOnly = onceOnly;
        this.ends = ends;
        this.reasons = reasons;
        this.refusals = refusals;
        this.words = words;
    }

    /** What is about to be recorded, to be looked over. */
    @Allowed(Role.WORKER)
    @GetMapping
    String show(
            Visit visit,
            @Valid @ModelAttribute("enter") EnterForm plan,
            BindingResult shape,
            Model page,
            HttpServletResponse response) {
        if (shape.hasErrors()) {
            return refused(response);
        }
        try {
            Answer answer = entrance.look(visit, plan);
            page.addAttribute("answer", answer);
            page.addAttribute(
                    "sentence",
                    words.say(
                            "enter.sentence." + answer.verdict(),
                            plan.task(),
                            plan.set(),
                            ends.until(
                                    answer.question().wear().until(),
                                    answer.question().wear().from(),
                                    visit.zone())));
            page.addAttribute(
                    "conditions",
                    answer.reasons().stream()
                            .filter(reason -> reason.result() == Result.MET_WITH_CONDITIONS)
                            .map(reasons::why)
                            .distinct()
                            .toList());
            return VIEW;
        } catch (TurnedBack no) {
            return turnedBack(visit, plan, no.answer(), page);
        } catch (Refused refused) {
            refusals.show(refused, shape);
            return refused(response);
        }
    }

    @Allowed(Role.WORKER)
    @PostMapping
    String take(
            Visit visit,
            @Valid @ModelAttribute("enter") EnterForm plan,
            BindingResult shape,
            @RequestParam(required = false) @Nullable String formKey,
            Model page,
            HttpServletResponse response) {
        if (shape.hasErrors()) {
            return refused(response);
        }
        try {
            OnceOnly.Done done = onceOnly.once(
                    visit.viewer(),
                    "enter",
                    formKey == null ? "" : formKey,
                    List.of(String.valueOf(plan.set()), String.valueOf(plan.task()), String.valueOf(plan.until())),
                    () -> entrance.enter(visit, plan).toString());
            return "redirect:/sites/" + visit.siteCode() + "/today?done=" + done.value();
        } catch (TurnedBack no) {
            entrance.keep(visit, no);
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            return turnedBack(visit, plan, no.answer(), page);
        } catch (Refused refused) {
            refusals.show(refused, shape);
            return refused(response);
        }
    }

    private static String refused(HttpServletResponse response) {
        response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
        return VIEW;
    }

    private String turnedBack(Visit visit, EnterForm plan, Answer answer, Model page) {
        List<Reason> barring = answer.reasons().stream()
                .filter(reason -> reason.result().bars())
                .toList();
        page.addAttribute(
                "barring",
                barring.stream()
                        .map(reason -> words.say("enter.because", reasons.requirement(reason), reasons.why(reason)))
                        .toList());
        page.addAttribute(
                "unchecked",
                answer.prefix() == null
                        && barring.stream().map(Reason::kind).allMatch(DayTasks.OF_THE_CHECK::contains));
        page.addAttribute("sentence", words.say("enter.no", plan.task(), plan.set()));
        page.addAttribute("lines", reasons.lines(TodayController.worstFirst(answer), answer.clearBy()));
        page.addAttribute(
                "actions",
                answer.clearBy().stream().map(reasons::clearBy).distinct().toList());
        Answer.Window prefix = answer.prefix();
        if (prefix != null) {
            page.addAttribute("shorter", prefix.interval().until());
            page.addAttribute(
                    "shorterSaid",
                    ends.until(
                            prefix.interval().until(), answer.question().wear().from(), visit.zone()));
        }
        return "worker/turned-back";
    }
}
