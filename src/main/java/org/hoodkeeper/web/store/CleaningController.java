package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Cleanings;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/** Records a wipe, a wash or a disinfection. Only what the maker of the model allows is offered. */
@Controller
@RequestMapping("/sites/{site}/sets/{label}/cleaning")
class CleaningController {

    private final Desk desk;
    private final Answers answers;
    private final Cleanings cleanings;
    private final Words words;

    CleaningController(Desk desk, Answers answers, Cleanings cleanings, Words words) {
        this.desk = desk;
        this.answers = answers;
        this.cleanings = cleanings;
        this.words = words;
    }

    @ModelAttribute("set")
    ShelfSet set(Visit visit, @PathVariable String label) {
        return desk.set(visit, label);
    }

    @ModelAttribute("methods")
    List<Choice> methods() {
        return Choice.each("cleaning.method.", Cleaning.Method.values());
    }

    @ModelAttribute("products")
    List<Choice> products(@ModelAttribute("set") ShelfSet set) {
        return products(set.modelData()).stream()
                .map(product -> Choice.named(
                        product.code(),
                        words.say(
                                "cleaning.product.least",
                                product.code(),
                                product.strength(),
                                product.basis(),
                                Duration.ofSeconds(product.wetSeconds()))))
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("cleaning", new CleaningForm(null, null, null, null, null, null, null));
        return "store/cleaning";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @ModelAttribute("set") ShelfSet set,
            @Valid @ModelAttribute("cleaning") CleaningForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "cleaning",
                        "store/cleaning",
                        () -> check(visit, set, form),
                        () -> record(visit, set, form),
                        "/sites/" + visit.siteCode() + "/sets/" + set.label()));
    }

    private List<Line> check(Visit visit, ShelfSet set, CleaningForm form) {
        requireProduct(form);
        String basis = basis(set, form);
        Answers.Lines lines = answers.of("cleaning")
                .choice("method", form.method())
                .text("product", form.product())
                .figure("strength", form.strength(), basis == null ? "" : basis)
                .span("wetSeconds", span(form))
                .figure("celsius", form.celsius(), "°C")
                .decides(
                        "covers",
                        covers(set, form) ? "clear" : "half",
                        covers(set, form) ? "cleaning.covers.YES" : "cleaning.covers.NO");
        for (String why : cleanings.wouldHold(
                visit.viewer().site(), set.id(), cleaning(set, form), form.instant(visit.zone(), desk.now()))) {
            lines.text("held", why);
        }
        return lines.at(form, visit);
    }

    private RecordId record(Visit visit, ShelfSet set, CleaningForm form) {
        requireProduct(form);
        return cleanings.record(
                Author.at(visit.viewer()), set.id(), cleaning(set, form), form.instant(visit.zone(), desk.now()), null);
    }

    private static Cleaning cleaning(ShelfSet set, CleaningForm form) {
        boolean disinfected = form.method() == Cleaning.Method.WASH_AND_DISINFECT;
        return new Cleaning(
                Objects.requireNonNull(form.method()),
                disinfected ? form.product() : null,
                disinfected ? form.strength() : null,
                disinfected ? basis(set, form) : null,
                disinfected ? form.wetSeconds() : null,
                form.celsius());
    }

    /** Named in the page's own words: a disinfection without its product, strength and time would not count. */
    private static void requireProduct(CleaningForm form) {
        if (form.method() != Cleaning.Method.WASH_AND_DISINFECT) {
            return;
        }
        if (form.product() == null) {
            throw new Refused("cleaning.product.missing");
        }
        if (form.strength() == null) {
            throw new Refused("cleaning.strength.missing");
        }
        if (form.wetSeconds() == null) {
            throw new Refused("cleaning.wetSeconds.missing");
        }
    }

    private static List<ModelData.Product> products(@Nullable ModelData model) {
        return model == null ? List.of() : model.productsForEveryPart();
    }

    private static ModelData.@Nullable Product product(ShelfSet set, CleaningForm form) {
        return products(set.modelData()).stream()
                .filter(product -> product.code().equals(form.product()))
                .findFirst()
                .orElse(null);
    }

    private static @Nullable String basis(ShelfSet set, CleaningForm form) {
        ModelData.Product product = product(set, form);
        return product == null ? null : product.basis();
    }

    private static @Nullable Duration span(CleaningForm form) {
        return form.wetSeconds() == null ? null : Duration.ofSeconds(form.wetSeconds());
    }

    /** Whether somebody else may have the set after it; the engine decides again on the record itself. */
    private static boolean covers(ShelfSet set, CleaningForm form) {
        ModelData.Product product = product(set, form);
        return form.method() == Cleaning.Method.WASH_AND_DISINFECT
                && product != null
                && form.strength() != null
                && form.wetSeconds() != null
                && form.strength().compareTo(product.strength()) >= 0
                && form.wetSeconds() >= product.wetSeconds();
    }
}
