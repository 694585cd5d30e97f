package org.hoodkeeper.web.hygienist;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.ExposureResults;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.YesNo;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records the result of a sample taken at a task. */
@Controller
@RequestMapping("/sites/{site}/tasks/{code}/exposure-result")
class ExposureController {

    private static final String VIEW = "hygienist/exposure";

    private final Sheets sheets;
    private final Programme programme;
    private final ExposureResults results;
    private final People people;
    private final Lists lists;
    private final Substances substances;
    private final MovePreview preview;

    ExposureController(
            Sheets sheets,
            Programme programme,
            ExposureResults results,
            People people,
            Lists lists,
            Substances substances,
            MovePreview preview) {
        this.sheets = sheets;
        this.programme = programme;
        this.results = results;
        this.people = people;
        this.lists = lists;
        this.substances = substances;
        this.preview = preview;
    }

    @ModelAttribute("code")
    String code(Visit visit, @PathVariable String code) {
        return programme.task(visit.viewer().site(), code).code();
    }

    @ModelAttribute("yesNo")
    List<Choice> yesNo() {
        return YesNo.choices();
    }

    @ModelAttribute("substances")
    List<String> substances(Visit visit) {
        return substances.known(visit.viewer().site());
    }

    @ModelAttribute("periods")
    List<Choice> periods() {
        return Choice.each("exposure.period.", ExposureResult.Period.values());
    }

    @Allowed(Role.HYGIENIST)
    @GetMapping
    String show(Model model) {

        model.addAttribute(
                "exposure",
                new ExposureForm(null, null, null, null, null, null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.HYGIENIST)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("code") String code,
            @Valid @ModelAttribute("exposure") ExposureForm form,
            BindingResult typed) {
        Instant told = sheets.now();
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "exposure",
                        VIEW,
                        () -> record(visit, code, form),
                        List::of,
                        () -> preview.ofTask(visit.viewer(), code, told, form.instant(visit.zone(), told))));
    }

    private RecordId record(Visit visit, String code, ExposureForm form) {

        SiteId site = visit.viewer().site();
        if (form.person() != null) {
            people.byNumber(site, form.person());
        }
        return results.record(
                Author.at(visit.viewer()),
                programme.task(site, code).id(),
                substances.spelled(site, Objects.requireNonNull(form.substance())),
                form.toFact(lists),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
