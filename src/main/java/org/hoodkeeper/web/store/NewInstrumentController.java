package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Takes an instrument on the site's list; its readings count from its first calibration on. */
@Controller
@RequestMapping("/sites/{site}/new-instrument")
class NewInstrumentController {

    private static final String VIEW = "store/new-instrument";

    private final Desk desk;
    private final Answers answers;
    private final Kit kit;
    private final AuditTrail audit;

    NewInstrumentController(Desk desk, Answers answers, Kit kit, AuditTrail audit) {
        this.desk = desk;
        this.answers = answers;
        this.kit = kit;
        this.audit = audit;
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("newInstrument", new NewThingForm(null));
        return VIEW;
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("newInstrument") NewThingForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "newInstrument",
                        VIEW,
                        () -> check(form),
                        () -> record(visit, form),
                        "/sites/" + visit.siteCode() + "/instruments/" + form.code()));
    }

    private List<Line> check(NewThingForm form) {
        return answers.of("newInstrument").text("code", form.code()).all();
    }

    private InstrumentId record(Visit visit, NewThingForm form) {
        InstrumentId added = kit.addInstrument(visit.viewer().site(), Objects.requireNonNull(form.code()));
        audit.record(
                visit.viewer().site(),
                AuditEntry.of("instrument.added").by(visit.viewer().account()).about(added));
        return added;
    }
}
