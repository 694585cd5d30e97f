package org.hoodkeeper.web.record;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.Entitled;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Takes a record back: it was wrong, and nothing takes its place. */
@Controller
@RequestMapping("/sites/{site}/records/{record}/withdrawal")
class WithdrawalController {

    private static final String VIEW = "record/withdrawal";

    private final Chains chains;
    private final Cells cells;
    private final Corrections corrections;
    private final Sheets sheets;
    private final About about;
    private final CorrectionPreview preview;

    WithdrawalController(
            Chains chains,
            Cells cells,
            Corrections corrections,
            Sheets sheets,
            About about,
            CorrectionPreview preview) {
        this.preview = preview;
        this.chains = chains;
        this.cells = cells;
        this.corrections = corrections;
        this.sheets = sheets;
        this.about = about;
    }

    @Allowed({Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.WORKER})
    @GetMapping
    ModelAndView show(Visit visit, @PathVariable String record, Model page) {
        History.Version version = chains.open(visit, record);
        page.addAttribute("withdrawal", new WithdrawalForm(null));
        return asked(visit, version, page, HttpStatus.OK);
    }

    @Allowed({Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST, Role.WORKER})
    @PostMapping
    ModelAndView take(
            Visit visit,
            @PathVariable String record,
            HttpServletRequest request,
            @Valid @ModelAttribute("withdrawal") WithdrawalForm form,
            BindingResult typed,
            Model page) {
        History.Version version = chains.open(visit, record);
        if (version.replacedBy() != null) {
            return asked(visit, version, page, HttpStatus.CONFLICT);
        }
        asked(visit, version, page, HttpStatus.OK);
        Instant trying = sheets.now();
        Sheet sheet = new Sheet(
                "withdrawal",
                VIEW,
                () -> corrections.withdraw(visit.viewer(), version.told().id(), form.because()),
                List::of,
                () -> preview.of(visit, version, trying, version.told().from()));
        ModelAndView result = sheets.take(
                visit, request, form, typed, sheet, told -> "/sites/" + visit.siteCode() + "/records/" + told);
        History.Version after = chains.again(visit, version);
        boolean overtaken = VIEW.equals(result.getViewName()) && after.replacedBy() != null;
        return overtaken ? asked(visit, after, page, HttpStatus.CONFLICT) : result;
    }

    /** What would be taken back is always the newest version; where somebody was first, the page says so and asks again. */
    private ModelAndView asked(Visit visit, History.Version version, Model page, HttpStatus status) {
        History.Version newest = chains.newest(visit, version);
        if (newest.withdrawal()) {
            throw new Refused("correction.withdrawn", newest.told().corrects());
        }
        if (!Entitled.toCorrect(visit.viewer(), newest)) {
            throw new Refused("correction.notEntitled", newest.kind());
        }
        page.addAttribute("version", newest);
        page.addAttribute("about", about.of(visit, newest));
        page.addAttribute("cells", cells.shown(visit, newest));
        if (version.replacedBy() != null) {
            page.addAttribute("first", chains.of(visit, newest).get(0));
        }
        return new ModelAndView(VIEW, status);
    }
}
