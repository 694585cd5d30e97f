package org.hoodkeeper.web.store;

import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.PartHistory;
import org.hoodkeeper.web.record.Names;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Where a part or a lot is now, where it ever was, and who wore it meanwhile. The question is the address. */
@Controller
class WhereController {

    private final Desk desk;
    private final PartHistory history;
    private final Names names;

    WhereController(Desk desk, PartHistory history, Names names) {
        this.desk = desk;
        this.history = history;
        this.names = names;
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/parts")
    String show(Visit visit, @ModelAttribute("asked") WhereForm asked, Model page) {
        PartHistory.Mark mark = asked.mark();
        List<PartHistory.Stay> stays =
                mark.isEmpty() ? List.of() : history.where(visit.viewer().site(), mark, desk.now());
        page.addAttribute("isAsked", !mark.isEmpty());
        page.addAttribute("stays", stays);
        page.addAttribute("in", inNow(stays));
        page.addAttribute(
                "ever",
                stays.stream().map(stay -> stay.fitting().set()).distinct().count());
        page.addAttribute(
                "wears", stays.stream().mapToLong(stay -> stay.wears().size()).sum());
        page.addAttribute("names", names.of(visit));
        return "store/where";
    }

    private static long inNow(List<PartHistory.Stay> stays) {
        return stays.stream()
                .filter(PartHistory.Stay::isIn)
                .map(stay -> stay.fitting().set())
                .distinct()
                .count();
    }
}
