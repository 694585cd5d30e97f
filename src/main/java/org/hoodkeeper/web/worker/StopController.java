package org.hoodkeeper.web.worker;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.PreUseCheck.Item;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** After a check that failed or a defect: do not wear it, and what to do with it. */
@Controller
class StopController {

    /** These say something of the person or of the choice of set, not that the set is broken. */
    private static final Set<Item> NOT_THE_SET = EnumSet.of(Item.RIGHT_SET, Item.SKIN_AT_SEAL);

    private final Mine mine;
    private final History history;
    private final Wears wears;
    private final Kit kit;
    private final Words words;

    StopController(Mine mine, History history, Wears wears, Kit kit, Words words) {
        this.mine = mine;
        this.history = history;
        this.wears = wears;
        this.kit = kit;
        this.words = words;
    }

    /** What the worker does now, the sharpest first. */
    enum Doing {
        TAG,
        SWAP,
        SHAVE,
        SEAT_AGAIN
    }

    @Allowed(Role.WORKER)
    @GetMapping("/sites/{site}/today/stop/{record}")
    String show(Visit visit, @PathVariable String record, Model page) {
        SiteId site = visit.viewer().site();
        History.Version version = history.find(site, Sheets.recordId(record), mine.now());
        if (version == null || !version.toldBy().equals(visit.viewer().account())) {
            throw new NotFound("record.unknown", record);
        }
        page.addAttribute("doing", doing(version.told().fact(), record));
        page.addAttribute("failed", failed(version.told().fact()));
        page.addAttribute(
                "label", kit.set(site, new SetId(version.told().subject())).label());
        page.addAttribute("inside", wears.inside(site, mine.self(visit).id(), mine.now()) != null);
        return "worker/stop";
    }

    private static Doing doing(Object fact, String record) {
        if (fact instanceof Defect defect && defect.step() == Defect.Step.FOUND) {
            return Doing.TAG;
        }
        if (fact instanceof PreUseCheck check) {
            Doing doing = doing(check);
            if (doing != null) {
                return doing;
            }
        }
        throw new NotFound("record.unknown", record);
    }

    /** None for a check in which nothing failed. */
    static @Nullable Doing doing(PreUseCheck check) {
        if (check.items().entrySet().stream()
                .anyMatch(item -> item.getValue() == Outcome.FAIL && !NOT_THE_SET.contains(item.getKey()))) {
            return Doing.TAG;
        }
        if (check.items().get(Item.RIGHT_SET) == Outcome.FAIL) {
            return Doing.SWAP;
        }
        if (check.items().get(Item.SKIN_AT_SEAL) == Outcome.FAIL) {
            return Doing.SHAVE;
        }
        return check.placement() == Outcome.FAIL ? Doing.SEAT_AGAIN : null;
    }

    private List<String> failed(Object fact) {
        List<String> failed = new ArrayList<>();
        if (fact instanceof PreUseCheck check) {
            check.items().forEach((item, outcome) -> {
                if (outcome == Outcome.FAIL) {
                    failed.add(words.say("stop.item." + item.name()));
                }
            });
            if (check.placement() == Outcome.FAIL) {
                failed.add(words.say("stop.item.placement"));
            }
        } else if (fact instanceof Defect defect && defect.part() != null) {
            failed.add(defect.part());
        }
        return failed;
    }
}
