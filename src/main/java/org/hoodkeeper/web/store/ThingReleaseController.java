package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.ModelAndView;

/** Lifts a hold from an instrument or an air supply. */
@Controller
class ThingReleaseController {

    private static final String VIEW = "store/thing-release";

    private final Desk desk;
    private final Answers answers;
    private final Holds holds;
    private final Things things;

    ThingReleaseController(Desk desk, Answers answers, Holds holds, Things things) {
        this.desk = desk;
        this.answers = answers;
        this.holds = holds;
        this.things = things;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/instruments/{code}/release")
    String ofInstrument(Visit visit, @PathVariable String code, Model page) {
        return show(visit, things.instrument(visit, code), page);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @PostMapping("/sites/{site}/instruments/{code}/release")
    ModelAndView takeInstrument(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("thingRelease") ReleaseForm form,
            BindingResult typed) {
        return take(visit, request, things.instrument(visit, code), form, typed);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/supplies/{code}/release")
    String ofSupply(Visit visit, @PathVariable String code, Model page) {
        return show(visit, things.supply(visit, code), page);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @PostMapping("/sites/{site}/supplies/{code}/release")
    ModelAndView takeSupply(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("thingRelease") ReleaseForm form,
            BindingResult typed) {
        return take(visit, request, things.supply(visit, code), form, typed);
    }

    private String show(Visit visit, Thing thing, Model page) {
        page.addAttribute("thing", thing);
        page.addAttribute("open", things.held(visit, thing.id()));
        page.addAttribute("thingRelease", new ReleaseForm(null, null, null, null));
        return VIEW;
    }

    private ModelAndView take(
            Visit visit, HttpServletRequest request, Thing thing, ReleaseForm form, BindingResult typed) {
        ModelAndView page = desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "thingRelease",
                        VIEW,
                        () -> check(visit, thing, form),
                        () -> record(visit, thing, form),
                        "/sites/" + visit.siteCode() + "/" + thing.sort() + "/" + thing.code()));
        return things.about(page, thing).addObject("open", things.held(visit, thing.id()));
    }

    private List<Line> check(Visit visit, Thing thing, ReleaseForm form) {
        return answers.of("thingRelease")
                .text("placed", things.named(visit, thing.id(), Objects.requireNonNull(form.placed())))
                .text("reason", form.reason())
                .at(form, visit);
    }

    private RecordId record(Visit visit, Thing thing, ReleaseForm form) {
        return holds.release(
                Author.at(visit.viewer()),
                thing.id(),
                Sheets.recordId(Objects.requireNonNull(form.placed())),
                form.reason(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
