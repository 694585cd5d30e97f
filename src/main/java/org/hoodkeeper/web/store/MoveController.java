package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.SupplyMoves;
import org.hoodkeeper.facts.SupplyMove;
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

/** Says that a supply was moved; the tests before it no longer count. */
@Controller
@RequestMapping("/sites/{site}/supplies/{code}/move")
class MoveController {

    private final Desk desk;
    private final Answers answers;
    private final SupplyMoves moves;
    private final Kit kit;

    MoveController(Desk desk, Answers answers, SupplyMoves moves, Kit kit) {
        this.desk = desk;
        this.answers = answers;
        this.moves = moves;
        this.kit = kit;
    }

    @ModelAttribute("supply")
    AirSupply supply(Visit visit, @PathVariable String code) {
        return kit.supply(visit.viewer().site(), code);
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping
    String show(Model model) {
        model.addAttribute("move", new MoveForm(null, null, null));
        return "store/move";
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @PathVariable String code,
            @Valid @ModelAttribute("move") MoveForm form,
            BindingResult typed) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(
                        "move",
                        "store/move",
                        () -> check(visit, form),
                        () -> record(visit, code, form),
                        "/sites/" + visit.siteCode() + "/supplies/" + code));
    }

    private List<Line> check(Visit visit, MoveForm form) {
        return answers.of("move").text("place", form.place()).at(form, visit);
    }

    private RecordId record(Visit visit, String code, MoveForm form) {
        return moves.record(
                Author.at(visit.viewer()),
                supply(visit, code).id(),
                new SupplyMove(Objects.requireNonNull(form.place())),
                form.instant(visit.zone(), desk.now()),
                null);
    }
}
