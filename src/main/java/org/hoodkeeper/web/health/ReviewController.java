package org.hoodkeeper.web.health;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Symptoms;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Closes a report of symptoms. The report stands on the page, and nobody but the health role gets here. */
@Controller
@RequestMapping("/sites/{site}/symptoms/{report}/review")
class ReviewController {

    private static final String VIEW = "health/review";

    private final Sheets sheets;
    private final Reports reports;
    private final Symptoms symptoms;

    ReviewController(Sheets sheets, Reports reports, Symptoms symptoms) {
        this.sheets = sheets;
        this.reports = reports;
        this.symptoms = symptoms;
    }

    @ModelAttribute("report")
    Reports.Report report(Visit visit, @PathVariable String report) {
        return reports.one(visit, Sheets.recordId(report));
    }

    @Allowed(Role.HEALTH)
    @GetMapping
    String show(Model model) {
        model.addAttribute("review", new ReviewForm(null, null, null));
        return VIEW;
    }

    @Allowed(Role.HEALTH)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("report") Reports.Report report,
            @Valid @ModelAttribute("review") ReviewForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "review",
                        VIEW,
                        () -> symptoms.review(
                                Author.at(visit.viewer()),
                                report.id(),
                                form.note(),
                                form.instant(visit.zone(), sheets.now()),
                                null)));
    }
}
