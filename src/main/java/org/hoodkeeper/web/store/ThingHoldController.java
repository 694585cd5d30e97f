package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.Choice;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.ModelAndView;

/** Puts a hold on an instrument, so that nothing is measured with it, or on an air supply, so that nobody breathes from it. */
@Controller
class ThingHoldController {

    private static final String VIEW = "store/thing-hold";

    private static final Hold.Why[] WHYS = {
        Hold.Why.QUARANTINE, Hold.Why.UNDER_REPAIR, Hold.Why.IMPOUNDED, Hold.Why.WITHDRAWN, Hold.Why.OTHER
    };

    private final Desk desk;
    private final Answers answers;
    private final Holds holds;
    private final Things things;

    ThingHoldController(Desk desk, Answers answers, Holds holds, Things things) {
        this.desk = desk;
        this.answers = answers;
        this.holds = holds;
        this.things = things;
    }

    @ModelAttribute("whys")
    List<Choice> whys() {
        return Choice.each("kinds.HoldWhy.", WHYS);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/instruments/{code}/hold")
    String ofInstrument(Visit visit, @PathVariable String code, Model page) {
        return show(things.instrument(visit, code), page);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @PostMapping("/sites/{site}/instruments/{code}/hold")
    ModelAndView takeInstrument(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("thingHold") HoldForm form,
            BindingResult typed) {
        return take(visit, request, things.instrument(visit, code), form, typed);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/supplies/{code}/hold")
    String ofSupply(Visit visit, @PathVariable String code, Model page) {
        return show(things.supply(visit, code), page);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @PostMapping("/sites/{site}/supplies/{code}/hold")
    ModelAndView takeSupply(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("thingHold") HoldForm form,
            BindingResult typed) {
        return take(visit, request, things.supply(visit, code), form, typed);
    }

    private static String show(Thing thing, Model page) {
        page.addAttribute("thing", thing);
        page.addAttribute("thingHold", new HoldForm(null, null, null, null));
        return VIEW;
    }

    private ModelAndView take(
            Visit visit, HttpServletRequest request, Thing thing, HoldForm form, BindingResult typed) {
        ModelAndView page = desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "thingHold",
                        VIEW,
                        () -> check(visit, form),
                        () -> record(visit, thing, form),
                        "/sites/" + visit.siteCode() + "/" + thing.sort() + "/" + thing.code()));
        return things.about(page, thing);
    }

    private List<Line> check(Visit visit, HoldForm form) {
        return answers.of("thingHold")
                .said("why", "hold.why.shown", form.why())
                .text("reason", form.reason())
                .at(form, visit);
    }

    private RecordId record(Visit visit, Thing thing, HoldForm form) {
        return holds.place(
                Author.at(visit.viewer()),
                thing.id(),
                Objects.requireNonNull(form.why()),
                form.reason(),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
