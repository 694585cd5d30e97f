package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.wash.Dilution;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.LabelCode;
import org.hoodkeeper.store.SetStep;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.store.UsualTimes;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.ModelAndView;

/** The wash: batches with their clocks, the one recipe that all of their sets bear, and the next step of each. */
@Controller
class WashController {

    private static final String BOARD = "store/wash";
    private static final String BATCH = "store/wash-batch";

    private final Washes washes;
    private final Holds holds;
    private final Bench bench;
    private final Kit kit;
    private final Desk desk;
    private final Refusals refusals;
    private final Words words;

    WashController(Washes washes, Holds holds, Bench bench, Kit kit, Desk desk, Refusals refusals, Words words) {
        this.washes = washes;
        this.holds = holds;
        this.bench = bench;
        this.kit = kit;
        this.desk = desk;
        this.refusals = refusals;
        this.words = words;
    }

    /**
     * A batch as its card shows it.
     *
     * @param since when its last step was taken
     * @param least seconds that it has to stay wet; none while nothing has to
     * @param ran seconds of them that have run
     * @param ready when its sets are ready at the earliest
     * @param held labels of its sets that are on hold: the wash makes them ready for nobody
     */
    public record Card(
            UUID id,
            List<String> labels,
            WashStep.Step at,
            Instant since,
            @Nullable Integer least,
            long ran,
            Instant ready,
            List<String> held) {

        public boolean isWet() {
            return at == WashStep.Step.WETTED && least != null;
        }

        public boolean isLongEnough() {
            return least != null && ran >= least;
        }

        public Duration soFar() {
            return Duration.ofSeconds(ran);
        }

        public Duration needed() {
            return Duration.ofSeconds(least == null ? 0 : least);
        }
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/wash")
    String board(Visit visit, Model page) {
        page.addAttribute("wash", WashForm.empty());
        around(visit, page);
        return BOARD;
    }

    private void around(Visit visit, Model page) {
        Instant now = desk.now();
        Map<SetId, String> labels = labels(visit);
        page.addAttribute("now", now);
        page.addAttribute(
                "batches",
                washes.open(visit.viewer().site(), now).stream()
                        .map(batch -> card(visit, batch, labels, now))
                        .toList());
        page.addAttribute("waiting", waiting(visit, now));
    }

    /** Sets that a clean would help, by label: what to put into the basket. */
    private List<String> waiting(Visit visit, Instant now) {
        List<SetId> busy = new ArrayList<>();
        washes.open(visit.viewer().site(), now).forEach(batch -> busy.addAll(batch.sets()));
        return bench.of(visit.viewer().site(), now).stream()
                .filter(set -> set.state() == ShelfSet.State.LAST_WEARER || set.state() == ShelfSet.State.BLOCKED)
                .filter(set -> !busy.contains(set.id()))
                .filter(set -> SetStep.possible(set).contains(SetStep.CLEAN))
                .filter(set -> set.readiness().barring().stream()
                                .anyMatch(reason -> reason.kind() == org.hoodkeeper.rules.RequirementKind.CLEAN)
                        || set.state() == ShelfSet.State.LAST_WEARER)
                .map(ShelfSet::label)
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping("/sites/{site}/wash")
    ModelAndView begin(Visit visit, @Valid @ModelAttribute("wash") WashForm form, BindingResult typed, Model page) {
        if (!typed.hasErrors()) {
            try {
                UUID batch = washes.begin(Author.at(visit.viewer()), sets(visit, form), desk.now());
                return new ModelAndView("redirect:/sites/" + visit.siteCode() + "/wash/" + batch);
            } catch (Refused refused) {
                refusals.show(refused, typed, "labels");
                if (refused.code().equals("wash.sets.apart")) {
                    page.addAttribute("plan", washes.plan(visit.viewer().site(), sets(visit, form), desk.now()));
                }
            }
        }
        around(visit, page);
        return new ModelAndView(BOARD, HttpStatus.UNPROCESSABLE_CONTENT);
    }

    private List<SetId> sets(Visit visit, WashForm form) {
        return form.chosen().stream()
                .map(text -> {
                    LabelCode code = LabelCode.read(text);
                    if (!code.isOf(visit.siteCode())) {
                        throw new NotFound("set.unknown", text);
                    }
                    return kit.set(visit.viewer().site(), code.label()).id();
                })
                .toList();
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/wash/{record}")
    String batch(Visit visit, @PathVariable String record, @ModelAttribute("asked") WashForm asked, Model page) {
        page.addAttribute("wash", WashForm.empty());
        around(visit, record, asked, page);
        return BATCH;
    }

    private void around(Visit visit, String record, @Nullable WashForm asked, Model page) {
        Instant now = desk.now();
        Washes.Batch batch = washes.batch(visit.viewer().site(), id(record), now);
        Washes.Recipe recipe = washes.recipe(visit.viewer().site(), batch.sets(), now);
        List<ModelData.Product> products = recipe.products();
        page.addAttribute("now", now);
        page.addAttribute("batch", card(visit, batch, labels(visit), now));
        page.addAttribute("steps", batch.steps());
        page.addAttribute("next", batch.next().stream().sorted().toList());
        page.addAttribute("recipe", recipe);
        page.addAttribute(
                "products",
                products.stream()
                        .map(one -> Choice.named(
                                one.code(),
                                words.say(
                                        "cleaning.product.least",
                                        one.code(),
                                        one.strength(),
                                        one.basis(),
                                        Duration.ofSeconds(one.wetSeconds()))))
                        .toList());
        page.addAttribute("dose", asked == null ? null : dose(asked));
    }

    /** None where nothing was asked or the answer would be no dose. */
    private static @Nullable Dilution dose(WashForm asked) {
        if (asked.stock() == null || asked.strength() == null || asked.litres() == null) {
            return null;
        }
        try {
            return Dilution.fillUp(
                    asked.stock(), asked.strength(), asked.litres().movePointRight(3));
        } catch (Refused noDose) {
            return null;
        }
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping("/sites/{site}/wash/{record}")
    ModelAndView step(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String record,
            @Valid @ModelAttribute("wash") WashForm form,
            BindingResult typed,
            Model page) {
        if (!typed.hasErrors() && form.next() != null) {
            try {
                washes.step(Author.at(visit.viewer()), id(record), step(visit, record, form), desk.now());
                return new ModelAndView("redirect:" + request.getRequestURI());
            } catch (NotFound unknown) {
                throw unknown;
            } catch (Refused refused) {
                refusals.show(refused, typed);
            }
        }
        around(visit, record, null, page);
        return new ModelAndView(BATCH, HttpStatus.UNPROCESSABLE_CONTENT);
    }

    private WashStep step(Visit visit, String record, WashForm form) {
        boolean wets = form.next() == WashStep.Step.WETTED;
        String basis = wets
                ? washes
                        .recipe(
                                visit.viewer().site(),
                                washes.batch(visit.viewer().site(), id(record), desk.now())
                                        .sets(),
                                desk.now())
                        .products()
                        .stream()
                        .filter(one -> one.code().equals(form.product()))
                        .map(ModelData.Product::basis)
                        .findFirst()
                        .orElse(null)
                : null;
        return new WashStep(
                java.util.Objects.requireNonNull(form.next()),
                form.next() == WashStep.Step.WASHED ? form.celsius() : null,
                wets ? form.product() : null,
                wets ? form.strength() : null,
                basis);
    }

    private Map<SetId, String> labels(Visit visit) {
        return new HashMap<>(kit.sets(visit.viewer().site()).stream()
                .collect(Collectors.toMap(set -> set.id(), set -> set.label())));
    }

    private Card card(Visit visit, Washes.Batch batch, Map<SetId, String> labels, Instant now) {
        Told<WashStep> last = batch.last();
        long ran = Math.max(0, Duration.between(last.from(), now).toSeconds());
        return new Card(
                batch.id(),
                named(batch.sets(), labels),
                batch.at(),
                last.from(),
                batch.wetSeconds(),
                ran,
                UsualTimes.ready(batch, now),
                named(
                        batch.sets().stream()
                                .filter(set -> holds.isHeld(visit.viewer().site(), set, now))
                                .toList(),
                        labels));
    }

    private static List<String> named(List<SetId> sets, Map<SetId, String> labels) {
        return sets.stream().map(set -> labels.getOrDefault(set, "")).sorted().toList();
    }

    /** @throws NotFound {@code wash.batch.unknown} when the text names no batch */
    private static UUID id(String text) {
        try {
            RecordId id = Sheets.recordId(text);
            return id.value();
        } catch (NotFound noId) {
            throw new NotFound("wash.batch.unknown", text);
        }
    }
}
