package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.air.AirDemand;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kit.AirSupply;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.RulesAtSite;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.ReasonWords;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.ModelAndView;

/** A breathing-air supply's page: may people breathe from it, and which sets hang on it. */
@Controller
class SupplyController {

    private final Kit kit;
    private final Bench bench;
    private final SetHistory history;
    private final ReasonWords reasons;
    private final Desk desk;
    private final Things things;
    private final Stands stands;
    private final AirLines air;
    private final RulesAtSite rulesAtSite;
    private final Refusals refusals;
    private final Words words;

    SupplyController(
            Kit kit,
            Bench bench,
            SetHistory history,
            ReasonWords reasons,
            Desk desk,
            Things things,
            Stands stands,
            AirLines air,
            RulesAtSite rulesAtSite,
            Refusals refusals,
            Words words) {
        this.kit = kit;
        this.bench = bench;
        this.history = history;
        this.reasons = reasons;
        this.desk = desk;
        this.things = things;
        this.stands = stands;
        this.air = air;
        this.rulesAtSite = rulesAtSite;
        this.refusals = refusals;
        this.words = words;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/supplies/{code}")
    String show(
            Visit visit,
            @PathVariable String code,
            @RequestParam(required = false) @Nullable UUID done,
            @ModelAttribute("demand") DemandForm demand,
            BindingResult typed,
            Model page) {
        AirSupply supply = kit.supply(visit.viewer().site(), code);
        List<ShelfSet> hanging = bench.of(visit.viewer().site(), desk.now()).stream()
                .filter(set ->
                        set.data() != null && supply.id().equals(set.data().supply()))
                .toList();
        List<History.Version> versions = history.versions(visit, supply.id());
        page.addAttribute("supply", supply);
        page.addAttribute("store", visit.viewer().is(Role.STOREKEEPER));
        page.addAttribute("held", things.held(visit, supply.id()));
        page.addAttribute("hanging", hanging);
        page.addAttribute("wrong", wrong(hanging));
        List<Told<AirTest>> tests = current(versions, AirTest.class);
        InForce rules = rulesAtSite.at(visit.viewer().site(), desk.now());
        List<Told<PurifierTag>> tags = current(versions, PurifierTag.class);
        page.addAttribute("test", tests.isEmpty() ? null : tests.get(0));
        page.addAttribute(
                "lines", tests.isEmpty() ? List.of() : air.of(tests.get(0).fact(), rules));
        page.addAttribute("tag", tags.isEmpty() ? null : tags.get(0));
        page.addAttribute("tagOver", !tags.isEmpty() && isOver(tags.get(0), Days.of(desk.now(), visit.zone())));
        page.addAttribute("online", online(visit, hanging));
        String trend = air.trend(tests);
        page.addAttribute("trend", trend);
        page.addAttribute("plot", trend == null ? null : air.picture(tests, trend, rules, visit.zone()));
        page.addAttribute(
                "feeds",
                tests.isEmpty() ? null : feeds(demand, typed, tests.get(0).fact(), hanging.size()));
        page.addAttribute("happenings", history.happenings(visit, versions));
        Told<?> told = done == null ? null : history.told(visit, supply.id(), done);
        page.addAttribute("done", told == null ? null : history.words(visit, told));
        return "store/supply";
    }

    private static <F extends Fact> List<Told<F>> current(List<History.Version> newestFirst, Class<F> type) {
        List<Told<F>> current = new ArrayList<>();
        for (History.Version version : newestFirst) {
            if (version.isCurrent() && type.isInstance(version.told().fact())) {
                @SuppressWarnings("unchecked")
                Told<F> told = (Told<F>) version.told();
                current.add(told);
            }
        }
        return current;
    }

    private static boolean isOver(Told<PurifierTag> tag, LocalDate today) {
        return tag.fact().nextOn() != null && today.isAfter(tag.fact().nextOn());
    }

    /** Who has a set that hangs on it in hand now. */
    private List<String> online(Visit visit, List<ShelfSet> hanging) {
        List<ShelfSet> out = hanging.stream()
                .filter(set -> set.state() == ShelfSet.State.OUT)
                .toList();
        Map<SetId, String> places = stands.places(visit, out);
        return out.stream()
                .map(set -> words.say("supply.online.one", set.label(), places.get(set.id())))
                .toList();
    }

    /** How many hoods it feeds at once; none without a tested flow or a figure for a hood. */
    private @Nullable String feeds(DemandForm asked, BindingResult typed, AirTest test, int hanging) {
        if (typed.hasErrors() || asked.perHood() == null || test.litresPerMinute() == null) {
            return null;
        }
        BigDecimal leakage = asked.leakage() == null ? BigDecimal.ZERO : asked.leakage();
        try {
            within(asked.perHood(), "0.1", "2000", "supply.perHood.range");
            within(leakage, "0", "100", "supply.leakage.range");
            AirDemand demand = new AirDemand(test.litresPerMinute(), asked.perHood(), leakage.movePointLeft(2));
            return words.say(
                    demand.feeds(hanging) ? "supply.demand.enough" : "supply.demand.short",
                    demand.most(),
                    hanging,
                    test.litresPerMinute());
        } catch (Refused refused) {
            refusals.show(refused, typed);
            return null;
        }
    }

    private static void within(BigDecimal typed, String least, String most, String code) {
        if (typed.compareTo(new BigDecimal(least)) < 0 || typed.compareTo(new BigDecimal(most)) > 0) {
            throw new Refused(code, typed, new BigDecimal(least), new BigDecimal(most));
        }
    }

    /** The engine's own word on the air, as the sets that hang on it hear it. */
    private List<String> wrong(List<ShelfSet> hanging) {
        return hanging.stream()
                .flatMap(set -> set.readiness().barringSupply().stream())
                .map(reasons::why)
                .distinct()
                .toList();
    }

    @ExceptionHandler
    ModelAndView unknown(NotFound nothing) {
        return ScanController.nothing(String.valueOf(nothing.arguments()[0]));
    }
}
