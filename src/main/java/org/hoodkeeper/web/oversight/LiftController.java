package org.hoodkeeper.web.oversight;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.LegalHolds;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.record.Names;
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

/** Lifts a legal hold, with what lay on it and why before the reader's eyes. */
@Controller
@RequestMapping("/sites/{site}/legal-hold/{record}/lift")
class LiftController {

    private static final String VIEW = "oversight/lift";

    private final Sheets sheets;
    private final LegalHolds holds;
    private final History history;
    private final Names names;

    LiftController(Sheets sheets, LegalHolds holds, History history, Names names) {
        this.sheets = sheets;
        this.holds = holds;
        this.history = history;
        this.names = names;
    }

    /** @throws NotFound {@code record.unknown} for anything but a legal hold that was placed and still stands */
    @ModelAttribute("placed")
    History.Version placed(Visit visit, @PathVariable String record, Model page) {
        History.Version version = history.find(visit.viewer().site(), Sheets.recordId(record), sheets.now());
        if (version == null
                || !version.isCurrent()
                || !(version.told().fact() instanceof LegalHold hold)
                || hold.step() != LegalHold.Step.PLACED) {
            throw new NotFound("record.unknown", record);
        }
        boolean site = version.told().subject().equals(visit.viewer().site().value());
        page.addAttribute(
                "on",
                site ? visit.siteName() : names.of(visit).of(version.told().subject()));
        return version;
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("lift", new LiftForm(null, null, null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String record,
            @Valid @ModelAttribute("lift") LiftForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("lift", VIEW, () -> record(visit, record, form)));
    }

    private RecordId record(Visit visit, String record, LiftForm form) {
        return holds.lift(
                Author.at(visit.viewer()),
                Sheets.recordId(record),
                form.reason(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }
}
