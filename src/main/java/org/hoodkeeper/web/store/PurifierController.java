package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.PurifierTags;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.AirSupply;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Says that the purifiers of a supply were changed, as its tag does. */
@Controller
@RequestMapping("/sites/{site}/supplies/{code}/purifier")
class PurifierController {

    private final Desk desk;
    private final Answers answers;
    private final PurifierTags tags;
    private final Kit kit;

    PurifierController(Desk desk, Answers answers, PurifierTags tags, Kit kit) {
        this.desk = desk;
        this.answers = answers;
        this.tags = tags;
        this.kit = kit;
    }

    @ModelAttribute("supply")
    AirSupply supply(Visit visit, @PathVariable String code) {
        return kit.supply(visit.viewer().site(), code);
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("purifier", new PurifierForm(null, null, null, null));
        return "store/purifier";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("purifier") PurifierForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "purifier",
                        "store/purifier",
                        () -> check(visit, form),
                        () -> record(visit, code, form),
                        "/sites/" + visit.siteCode() + "/supplies/" + code));
    }

    private List<Line> check(Visit visit, PurifierForm form) {
        return answers.of("purifier")
                .text("changedBy", form.changedBy())
                .day("nextOn", form.nextOn())
                .at(form, visit);
    }

    private RecordId record(Visit visit, String code, PurifierForm form) {
        return tags.record(
                Author.at(visit.viewer()),
                supply(visit, code).id(),
                new PurifierTag(form.changedBy(), form.nextOn()),
                form.instant(visit.zone(), desk.now()));
    }
}
