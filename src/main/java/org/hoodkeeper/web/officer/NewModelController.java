package org.hoodkeeper.web.officer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Accept;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
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
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Takes a model on the site's list. */
@Controller
@RequestMapping("/sites/{site}/new-model")
class NewModelController {

    private static final String VIEW = "officer/new-model";

    private final Sheets sheets;
    private final Kit kit;
    private final Lists lists;

    NewModelController(Sheets sheets, Kit kit, Lists lists) {
        this.sheets = sheets;
        this.kit = kit;
        this.lists = lists;
    }

    @ModelAttribute("types")
    List<Choice> types() {
        return Choice.each("kinds.InterfaceType.", InterfaceType.values());
    }

    @ModelAttribute("flowAts")
    List<Choice> flowAts() {
        return Choice.each("model.flowAt.", ModelData.FlowAt.values());
    }

    @ModelAttribute("filterKinds")
    List<Choice> filterKinds() {
        return Choice.each("kinds.FilterKind.", FilterKind.values());
    }

    @ModelAttribute("yesNo")
    List<Choice> yesNo() {
        return YesNo.choices();
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("model", NewModelForm.empty());
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("model") NewModelForm form,
            BindingResult typed) {
        return sheets.take(
                visit,
                request,
                form,
                typed,
                new Sheet("model", VIEW, () -> record(visit, form)),
                added -> "/sites/" + visit.siteCode() + "/register?added=" + form.code());
    }

    private ModelId record(Visit visit, NewModelForm form) {
        ModelData data = form.toFact(lists);
        Accept.fact(data);
        Instant at = form.instant(visit.zone(), sheets.now());
        Accept.at(at);
        return kit.addModel(Author.at(visit.viewer()), Objects.requireNonNull(form.code()), data, at);
    }
}
