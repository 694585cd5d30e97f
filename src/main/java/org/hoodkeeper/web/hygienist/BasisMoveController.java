package org.hoodkeeper.web.hygienist;

import java.time.Instant;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.reporting.BasisMove;
import org.hoodkeeper.reporting.BasisMoves;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.web.MomentForm;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;

/** Whom the new basis of a task turned: who may no longer, who still may, who needs what, and which wears to look at. */
@Controller
class BasisMoveController {

    private final BasisMoves moves;
    private final KnowledgeClock clock;
    private final Words words;
    private final Show show;
    private final Refusals refusals;

    BasisMoveController(BasisMoves moves, KnowledgeClock clock, Words words, Show show, Refusals refusals) {
        this.moves = moves;
        this.clock = clock;
        this.words = words;
        this.show = show;
        this.refusals = refusals;
    }

    /** @param before what was known by then is compared; nothing means just before the newest was told */
    public record BeforeForm(@Nullable String before) {}

    @Allowed({Role.OFFICER, Role.HYGIENIST})
    @GetMapping("/sites/{site}/tasks/{code}/moved")
    String show(
            Visit visit,
            @PathVariable String code,
            @ModelAttribute("asked") BeforeForm asked,
            BindingResult shape,
            Model page) {
        BasisMove move = moves.of(visit.viewer(), code, before(visit, asked, shape));
        page.addAttribute("move", move);
        page.addAttribute("code", move.sheet().task());
        page.addAttribute(
                "sentence",
                words.say(
                        "basisMove.answer",
                        move.turned().size(),
                        move.sheet().task(),
                        ratio(move.before().ratio()),
                        ratio(move.sheet().ratio()),
                        move.wearsInAll()));
        return "hygienist/moved";
    }

    private String ratio(java.math.@Nullable BigDecimal ratio) {
        return ratio == null ? words.say("exposureSheet.unknown") : show.figure(TaskSheetController.shown(ratio));
    }

    private @Nullable Instant before(Visit visit, BeforeForm asked, BindingResult shape) {
        if (asked.before() == null || asked.before().isBlank()) {
            return null;
        }
        try {
            return new MomentForm(asked.before(), "now")
                    .moment(visit.zone(), clock.now())
                    .at();
        } catch (Refused refused) {
            refusals.show(refused, shape, "before");
            return null;
        }
    }
}
