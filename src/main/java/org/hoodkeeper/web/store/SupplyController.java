package org.hoodkeeper.web.store;

import java.util.List;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.AirSupply;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.web.ReasonWords;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
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

    SupplyController(Kit kit, Bench bench, SetHistory history, ReasonWords reasons, Desk desk, Things things) {
        this.kit = kit;
        this.bench = bench;
        this.history = history;
        this.reasons = reasons;
        this.desk = desk;
        this.things = things;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/supplies/{code}")
    String show(
            Visit visit, @PathVariable String code, @RequestParam(required = false) @Nullable UUID done, Model page) {
        AirSupply supply = kit.supply(visit.viewer().site(), code);
        List<ShelfSet> hanging = bench.of(visit.viewer().site(), desk.now()).stream()
                .filter(set ->
                        set.data() != null && supply.id().equals(set.data().supply()))
                .toList();
        List<History.Version> versions = history.versions(visit, supply.id());
        page.addAttribute("supply", supply);
        page.addAttribute("held", things.held(visit, supply.id()));
        page.addAttribute("hanging", hanging);
        page.addAttribute("wrong", wrong(hanging));
        page.addAttribute("happenings", history.happenings(visit, versions));
        Told<?> told = done == null ? null : history.told(visit, supply.id(), done);
        page.addAttribute("done", told == null ? null : history.words(visit, told));
        return "store/supply";
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
