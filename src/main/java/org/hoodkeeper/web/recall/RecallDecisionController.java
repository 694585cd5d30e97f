package org.hoodkeeper.web.recall;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
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

/** The safety officer frees a set of a recall although its part is in, and says why. */
@Controller
@RequestMapping("/sites/{site}/recalls/{record}/sets/{label}")
class RecallDecisionController {

    private static final String VIEW = "recall/decision";

    private final Sheets sheets;
    private final Recalls recalls;
    private final Kit kit;

    RecallDecisionController(Sheets sheets, Recalls recalls, Kit kit) {
        this.sheets = sheets;
        this.recalls = recalls;
        this.kit = kit;
    }

    @ModelAttribute
    void about(Visit visit, @PathVariable UUID record, @PathVariable String label, Model page) {
        page.addAttribute("label", kit.set(visit.viewer().site(), label).label());
        page.addAttribute("record", record);
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("recallDecision", new RecallDecisionForm(null, null, null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @PathVariable UUID record,
            @PathVariable String label,
            @Valid @ModelAttribute("recallDecision") RecallDecisionForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet(
                        "recallDecision",
                        VIEW,
                        () -> recalls.decide(
                                Author.at(visit.viewer()),
                                kit.set(visit.viewer().site(), label).id(),
                                new RecordId(record),
                                form.reason(),
                                form.instant(visit.zone(), sheets.now()))),
                done -> "/sites/" + visit.siteCode() + "/recalls/" + record);
    }
}
