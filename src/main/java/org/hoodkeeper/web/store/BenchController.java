package org.hoodkeeper.web.store;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.ShelfSet;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** The storekeeper's first page: how many are ready, and what blocks the others. The address is the whole question. */
@Controller
class BenchController {

    private static final int ROWS = 50;

    private final Bench bench;
    private final Stands stands;
    private final Desk desk;

    BenchController(Bench bench, Stands stands, Desk desk) {
        this.bench = bench;
        this.stands = stands;
        this.desk = desk;
    }

    /** What the address asks for; nothing, or what nobody can read, means all. */
    public record Asked(
            @Nullable String state,
            @Nullable String model,
            @Nullable String size,
            @Nullable String page) {

        public ShelfSet.@Nullable State stateOrAll() {
            return Stream.of(ShelfSet.State.values())
                    .filter(one -> one.name().equals(state))
                    .findFirst()
                    .orElse(null);
        }

        /** From 1. */
        int pageOrFirst() {
            return page != null && page.matches("[1-9][0-9]{0,4}") ? Integer.parseInt(page) : 1;
        }

        boolean fits(ShelfSet set) {
            return (stateOrAll() == null || set.state() == stateOrAll())
                    && (model == null || set.model().equals(model))
                    && (size == null || set.size().equals(size));
        }

        public boolean isAll() {
            return stateOrAll() == null && model == null && size == null;
        }
    }

    /** How many of a model and size are ready. */
    public record Count(String model, String size, long ready, long all) {}

    /** How many stand like that. */
    public record StateCount(ShelfSet.State state, long sets, boolean here) {}

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping("/sites/{site}/bench")
    String show(Visit visit, @ModelAttribute("asked") Asked asked, Model page) {
        Instant now = desk.now();
        List<ShelfSet> all = bench.of(visit.viewer().site(), now);
        List<ShelfSet> shown = all.stream().filter(asked::fits).toList();
        int from = Math.min(shown.size(), (asked.pageOrFirst() - 1) * ROWS);
        List<ShelfSet> rows = shown.subList(from, Math.min(shown.size(), from + ROWS));
        page.addAttribute("now", now);
        page.addAttribute("listed", all.size());
        page.addAttribute(
                "all",
                all.stream()
                        .filter(set -> set.state() != ShelfSet.State.WITHDRAWN)
                        .count());
        page.addAttribute(
                "ready",
                all.stream().filter(set -> set.state() == ShelfSet.State.READY).count());
        page.addAttribute("blocked", labels(all));
        page.addAttribute("states", states(all, asked));
        page.addAttribute("counts", counts(all));
        page.addAttribute("rows", stands.of(visit, rows));
        page.addAttribute("upTo", from + rows.size());
        page.addAttribute("total", shown.size());
        page.addAttribute("nextPage", from + rows.size() < shown.size() ? from / ROWS + 2 : null);
        return "store/bench";
    }

    private static List<String> labels(List<ShelfSet> sets) {
        return sets.stream()
                .filter(set -> set.state() == ShelfSet.State.BLOCKED)
                .map(ShelfSet::label)
                .toList();
    }

    private static List<StateCount> states(List<ShelfSet> sets, Asked asked) {
        return Stream.of(ShelfSet.State.values())
                .map(state -> new StateCount(
                        state, sets.stream().filter(set -> set.state() == state).count(), state == asked.stateOrAll()))
                .filter(count -> count.sets() > 0)
                .toList();
    }

    private static List<Count> counts(List<ShelfSet> sets) {
        Map<String, List<ShelfSet>> groups = sets.stream()
                .filter(set -> set.state() != ShelfSet.State.WITHDRAWN)
                .collect(Collectors.groupingBy(
                        set -> set.model() + "/" + set.size(), TreeMap::new, Collectors.toList()));
        return groups.values().stream()
                .map(group -> new Count(
                        group.get(0).model(),
                        group.get(0).size(),
                        group.stream()
                                .filter(set -> set.state() == ShelfSet.State.READY)
                                .count(),
                        group.size()))
                .toList();
    }
}
