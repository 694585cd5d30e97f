package org.hoodkeeper.web.officer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.SiteParticulars;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Certificates;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Who the employer is and who made each model: what certificates name. */
@Controller
@RequestMapping("/sites/{site}/particulars")
class ParticularsController {

    private static final String VIEW = "officer/particulars";

    private final Sheets sheets;
    private final SiteParticulars particulars;
    private final Certificates certificates;

    ParticularsController(Sheets sheets, SiteParticulars particulars, Certificates certificates) {
        this.sheets = sheets;
        this.particulars = particulars;
        this.certificates = certificates;
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Visit visit, Model page) {
        page.addAttribute(
                "particulars",
                ParticularsForm.of(certificates.particulars(visit.viewer().site(), sheets.now())));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("particulars") ParticularsForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "particulars",
                        VIEW,
                        () -> particulars.record(
                                Author.at(visit.viewer()), form.toFact(), form.instant(visit.zone(), sheets.now()))));
    }
}
