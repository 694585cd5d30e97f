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
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.ShelfModel;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Seen;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.YesNo;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** What the maker says of a model: a change from a time on, or a correction that reaches back. The form asks which. */
@Controller
@RequestMapping("/sites/{site}/models/{code}/data")
class ModelController {

    private static final String VIEW = "officer/model";

    private final Sheets sheets;
    private final Kit kit;
    private final Bench bench;
    private final Lists lists;
    private final ModelText text;
    private final Seen seen;

    ModelController(Sheets sheets, Kit kit, Bench bench, Lists lists, ModelText text, Seen seen) {
        this.sheets = sheets;
        this.seen = seen;
        this.kit = kit;
        this.bench = bench;
        this.lists = lists;
        this.text = text;
    }

    @ModelAttribute("held")
    ShelfModel held(Visit visit, @PathVariable String code) {
        return bench.models(visit.viewer().site(), sheets.now()).stream()
                .filter(model -> model.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new NotFound("model.unknown", code));
    }

    @ModelAttribute(Seen.FIELD)
    String seen(Visit visit, HttpServletRequest request, @ModelAttribute("held") ShelfModel held) {
        return seen.field(visit, request, Kind.MODEL, held.id());
    }

    @ModelAttribute("sorts")
    List<Choice> sorts() {
        return Choice.each("model.sort.", ModelForm.Sort.values());
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
    String show(@ModelAttribute("held") ShelfModel held, Model page) {
        page.addAttribute("model", ModelForm.of(held.data(), text));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("held") ShelfModel held,
            @ModelAttribute(Seen.FIELD) String state,
            @Valid @ModelAttribute("model") ModelForm form,
            BindingResult typed) {
        ModelAndView page = sheets.take(
                visit, request, form, typed, new Sheet("model", VIEW, () -> record(visit, held, state, form)));
        return seen.shown(visit, page, Kind.MODEL, held.id(), state, "model", () -> ModelForm.of(held.data(), text));
    }

    private RecordId record(Visit visit, ShelfModel held, String state, ModelForm form) {
        seen.require(visit, Kind.MODEL, held.id(), null, state);
        ModelData data = form.toFact(lists);
        Accept.fact(data);
        Instant at = form.instant(visit.zone(), sheets.now());
        Accept.at(at);
        return switch (Objects.requireNonNull(form.sort())) {
            case CHANGE -> kit.changeModel(Author.at(visit.viewer()), held.id(), data, at);
            case CORRECTION -> kit.correctModel(Author.at(visit.viewer()), held.id(), data, at, because(form));
        };
    }

    private static String because(ModelForm form) {
        if (form.because() == null) {
            throw new Refused("model.because.missing");
        }
        return form.because();
    }
}
