package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Acceptances;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.ShelfModel;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** Takes a delivered set in. It is held until it has been looked over and accepted. */
@Controller
@RequestMapping("/sites/{site}/new-set")
class NewSetController {

    private static final String VIEW = "store/new-set";

    private final Desk desk;
    private final Answers answers;
    private final Bench bench;
    private final Kit kit;
    private final Acceptances acceptances;
    private final Words words;

    NewSetController(Desk desk, Answers answers, Bench bench, Kit kit, Acceptances acceptances, Words words) {
        this.desk = desk;
        this.answers = answers;
        this.bench = bench;
        this.kit = kit;
        this.acceptances = acceptances;
        this.words = words;
    }

    @ModelAttribute("models")
    List<Choice> models(Visit visit) {
        return bench.models(visit.viewer().site(), desk.now()).stream()
                .map(model -> Choice.named(
                        model.code(),
                        words.say(
                                "newSet.model.has",
                                model.code(),
                                List.copyOf(model.data().sizes()),
                                model.data().sealRevision())))
                .toList();
    }

    @ModelAttribute("supplies")
    List<Choice> supplies(Visit visit) {
        return kit.supplies(visit.viewer().site()).stream()
                .map(supply -> Choice.named(supply.code(), supply.code()))
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(@RequestParam(required = false) @Nullable String label, Model model) {
        model.addAttribute("newSet", new NewSetForm(label, null, null, null, null, null, null, null, null, null, null));
        return VIEW;
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("newSet") NewSetForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "newSet",
                        VIEW,
                        () -> check(visit, form),
                        () -> record(visit, form),
                        "/sites/" + visit.siteCode() + "/sets/" + form.label()));
    }

    private List<Line> check(Visit visit, NewSetForm form) {
        requireKnown(visit, form);
        return answers.of("newSet")
                .text("label", form.label())
                .text("model", form.model())
                .text("size", form.size())
                .text("sealRevision", form.sealRevision())
                .text("supply", form.supply())
                .text("store", form.store())
                .text("serial", form.serial())
                .text("delivery", form.delivery())
                .said("emergency", form.isForEmergencies() ? "newSet.emergency.YES" : "newSet.emergency.NO")
                .at(form, visit);
    }

    private ShelfModel requireKnown(Visit visit, NewSetForm form) {
        ShelfModel model = bench.models(visit.viewer().site(), desk.now()).stream()
                .filter(one -> one.code().equals(form.model()))
                .findFirst()
                .orElseThrow(() -> new NotFound("model.unknown", form.model()));
        if (!model.data().sizes().isEmpty() && !model.data().sizes().contains(form.size())) {
            throw new Refused(
                    "newSet.size.unknown", form.size(), List.copyOf(model.data().sizes()));
        }
        if (model.data().type().isAirFed() && form.supply() == null) {
            throw new Refused("newSet.supply.missing", form.model());
        }
        if (kit.findSet(visit.viewer().site(), Objects.requireNonNull(form.label()))
                .isPresent()) {
            throw new Refused("set.label.taken", form.label());
        }
        return model;
    }

    private SetId record(Visit visit, NewSetForm form) {
        ShelfModel model = requireKnown(visit, form);
        SetData data = new SetData(
                model.id(),
                Objects.requireNonNull(form.size()),
                Objects.requireNonNull(form.sealRevision()),
                form.supply() == null
                        ? null
                        : kit.supply(visit.viewer().site(), form.supply()).id(),
                form.isForEmergencies(),
                form.store(),
                form.serial());
        Author author = Author.at(visit.viewer());
        Instant at = form.instant(visit.zone(), desk.now());
        SetId set = kit.addSet(author, Objects.requireNonNull(form.label()), data, at);
        acceptances.await(author, set, Objects.requireNonNull(form.delivery()), at);
        return set;
    }
}
