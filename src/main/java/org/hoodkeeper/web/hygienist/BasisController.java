package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.ExposureStatistics;
import org.hoodkeeper.evidence.TaskBases;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.TaskSheets;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Seen;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records the exposure assessment that a task stands on, from an instant on. */
@Controller
@RequestMapping("/sites/{site}/tasks/{code}/basis")
class BasisController {

    private static final String VIEW = "hygienist/basis";

    private final Sheets sheets;
    private final Programme programme;
    private final TaskBases bases;
    private final Lists lists;
    private final Substances substances;
    private final TaskSheets taskSheets;
    private final MovePreview preview;
    private final Show show;
    private final Words words;
    private final Seen seen;

    BasisController(
            Sheets sheets,
            Programme programme,
            TaskBases bases,
            Lists lists,
            Substances substances,
            TaskSheets taskSheets,
            MovePreview preview,
            Show show,
            Words words,
            Seen seen) {
        this.sheets = sheets;
        this.seen = seen;
        this.programme = programme;
        this.bases = bases;
        this.lists = lists;
        this.substances = substances;
        this.taskSheets = taskSheets;
        this.preview = preview;
        this.show = show;
        this.words = words;
    }

    @ModelAttribute("code")
    String code(Visit visit, @PathVariable String code) {
        return programme.task(visit.viewer().site(), code).code();
    }

    @ModelAttribute(Seen.FIELD)
    String seen(Visit visit, HttpServletRequest request, @PathVariable String code) {
        return seen.field(visit, request, Kind.TASK_BASIS, task(visit, code));
    }

    private TaskId task(Visit visit, String code) {
        return programme.task(visit.viewer().site(), code).id();
    }

    @ModelAttribute("mixtures")
    List<Choice> mixtures() {
        return Choice.each("basis.mixture.", TaskBasis.Mixture.values());
    }

    @ModelAttribute("statistics")
    List<Choice> statistics() {
        return Choice.each("exposureSheet.statistic.", ExposureStatistics.Statistic.values());
    }

    /** Named in the hint: a field of several lines offers no list. */
    @ModelAttribute("substances")
    List<String> substances(Visit visit) {
        return substances.known(visit.viewer().site());
    }

    @ModelAttribute("atmospheres")
    List<Choice> atmospheres() {
        return Choice.each("basis.atmosphere.", TaskBasis.Atmosphere.values());
    }

    @ModelAttribute("longShifts")
    List<Choice> longShifts() {
        return Choice.each("basis.longShift.", TaskBasis.LongShift.values());
    }

    @ModelAttribute("types")
    List<Choice> types() {
        return Choice.each("kinds.InterfaceType.", InterfaceType.values());
    }

    @ModelAttribute("workRates")
    List<Choice> workRates() {
        return Choice.each("kinds.MedicalOutcomeWorkRate.", MedicalOutcome.WorkRate.values());
    }

    /** What the standing assessment answers to the questions on safety: shown beside them, and to be answered again. */
    @ModelAttribute("soFar")
    Map<String, String> soFar(Visit visit, @PathVariable String code) {
        TaskBasis standing = standing(visit, code);
        Map<String, String> soFar = new HashMap<>();
        if (standing != null) {
            soFar.put("mixture", soFar("basis.mixture." + standing.mixture()));
            soFar.put("atmosphere", soFar("basis.atmosphere." + standing.atmosphere()));
            soFar.put("workRate", soFar("kinds.MedicalOutcomeWorkRate." + standing.workRate()));
            if (standing.longShift() != null) {
                soFar.put("longShift", soFar("basis.longShift." + standing.longShift()));
            }
        }
        return soFar;
    }

    private String soFar(String key) {
        return words.say("basis.standing", words.say(key));
    }

    private @Nullable TaskBasis standing(Visit visit, String code) {
        Told<TaskBasis> told = taskSheets
                .of(visit.viewer().site(), code, Moment.of(null, false, sheets.now()))
                .basis();
        return told == null ? null : told.fact();
    }

    @Allowed(Role.HYGIENIST)
    @GetMapping
    String show(Visit visit, @ModelAttribute("code") String code, Model model) {
        model.addAttribute("basis", BasisForm.from(standing(visit, code), show));
        return VIEW;
    }

    @Allowed(Role.HYGIENIST)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("code") String code,
            @ModelAttribute(Seen.FIELD) String state,
            @Valid @ModelAttribute("basis") BasisForm form,
            BindingResult typed) {
        Instant told = sheets.now();
        ModelAndView page = sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "basis",
                        VIEW,
                        () -> record(visit, code, state, form),
                        List::of,
                        () -> preview.ofAssessment(visit.viewer(), code, told, form.instant(visit.zone(), told))));
        return seen.shown(
                visit,
                page,
                Kind.TASK_BASIS,
                task(visit, code),
                state,
                "basis",
                () -> BasisForm.from(standing(visit, code), show));
    }

    private RecordId record(Visit visit, String code, String state, BasisForm form) {
        TaskId task = task(visit, code);
        seen.require(visit, Kind.TASK_BASIS, task, null, state);
        return bases.record(
                Author.at(visit.viewer()),
                task,
                form.toFact(lists, substances.known(visit.viewer().site())),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
