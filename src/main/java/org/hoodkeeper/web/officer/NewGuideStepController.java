package org.hoodkeeper.web.officer;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.GuidedWorks;
import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.GuideStep;
import org.hoodkeeper.store.Guides;
import org.hoodkeeper.store.ShelfModel;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
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

/** Gives a model a step of its own between those that its guides have. */
@Controller
@RequestMapping("/sites/{site}/models/{code}/new-guide-step")
class NewGuideStepController {

    private static final String VIEW = "officer/new-guide-step";

    private final Sheets sheets;
    private final Bench bench;
    private final Guides guides;
    private final GuidedWorks works;
    private final Words words;

    NewGuideStepController(Sheets sheets, Bench bench, Guides guides, GuidedWorks works, Words words) {
        this.sheets = sheets;
        this.bench = bench;
        this.guides = guides;
        this.works = works;
        this.words = words;
    }

    /** @param work the guide, for a change with its part @param after none where it comes first */
    private record Place(String code, String work, String after, String said) {}

    @ModelAttribute("held")
    ShelfModel held(Visit visit, @PathVariable String code) {
        return bench.models(visit.viewer().site(), sheets.now()).stream()
                .filter(model -> model.code().equals(code))
                .findFirst()
                .orElseThrow(() -> new NotFound("model.unknown", code));
    }

    @ModelAttribute("places")
    List<Choice> choices(@ModelAttribute("held") ShelfModel held) {
        return places(held).stream()
                .map(place -> Choice.named(place.code(), place.said()))
                .toList();
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Model page) {
        page.addAttribute("newGuideStep", new NewGuideStepForm(null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("held") ShelfModel held,
            @Valid @ModelAttribute("newGuideStep") NewGuideStepForm form,
            BindingResult typed) {
        return sheets.take(
                visit, request, form, typed, new Sheet("newGuideStep", VIEW, () -> record(visit, held, form)));
    }

    private RecordId record(Visit visit, ShelfModel held, NewGuideStepForm form) {
        Place place = places(held).stream()
                .filter(one -> one.code().equals(Objects.requireNonNull(form.place())))
                .findFirst()
                .orElseThrow(() -> new Refused("guideWords.place.unknown"));
        return works.add(
                Author.at(visit.viewer()),
                held.id(),
                place.work(),
                form.words(),
                place.after().isEmpty() ? null : place.after(),
                form.reason(),
                form.instant(visit.zone(), sheets.now()));
    }

    /** First in each work, and after each of its steps. */
    private List<Place> places(ShelfModel held) {
        List<Place> places = new ArrayList<>();
        String before = "";
        for (GuideStep step : guides.all(held.data())) {
            String work = step.guide() == Guide.CHANGE
                    ? step.guide() + "." + Objects.requireNonNull(step.part())
                    : step.guide().name();
            String guide = words.say("guideStep.guide." + step.guide());
            String title = words.say("guide." + step.key() + ".title");
            if (!work.equals(before)) {
                places.add(new Place(work, work, "", words.say("guideStep.place.first", guide, title)));
            }
            places.add(new Place(step.key(), work, step.key(), words.say("guideStep.place.after", guide, title)));
            before = work;
        }
        return places;
    }
}
