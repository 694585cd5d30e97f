package org.hoodkeeper.web.store;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Stock;
import org.hoodkeeper.evidence.StockItem;
import org.hoodkeeper.evidence.StockLot;
import org.hoodkeeper.facts.StockCount;
import org.hoodkeeper.facts.StockReceipt;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.web.Choice;
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

/** What the store keeps: which lot to take next, what runs out first, and the three things that happen to it. */
@Controller
@RequestMapping("/sites/{site}/stock")
class StockController {

    private static final String DELIVERY = "store/stock-delivery";
    private static final String WITHDRAWAL = "store/stock-withdrawal";
    private static final String COUNT = "store/stock-count";

    private final Stock stock;
    private final Kit kit;
    private final Desk desk;
    private final Answers answers;

    StockController(Stock stock, Kit kit, Desk desk, Answers answers) {
        this.stock = stock;
        this.kit = kit;
        this.desk = desk;
        this.answers = answers;
    }

    /** A part of a lot that the store never had. @param label the set's */
    public record Stranger(String label, String part, String lot, Instant at) {}

    @ModelAttribute("uses")
    List<Choice> uses() {
        return Choice.each("stockUse.use.", StockUse.Use.USED, StockUse.Use.DISCARDED);
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER})
    @GetMapping
    String show(Visit visit, @RequestParam(required = false) @Nullable UUID done, Model page) {
        Instant now = desk.now();
        Stock.Kept kept = stock.kept(visit.viewer().site(), now);
        page.addAttribute("now", now);
        page.addAttribute("kept", kept);
        page.addAttribute(
                "toOrder",
                kept.items().stream()
                        .filter(StockItem::isToOrder)
                        .map(StockItem::code)
                        .toList());
        page.addAttribute(
                "toBin",
                kept.items().stream()
                        .filter(item -> item.expiredPieces() > 0)
                        .map(StockItem::code)
                        .toList());
        page.addAttribute("strangers", strangers(visit, kept));
        page.addAttribute("done", done);
        page.addAttribute("books", visit.viewer().is(Role.STOREKEEPER));
        return "store/stock";
    }

    private List<Stranger> strangers(Visit visit, Stock.Kept kept) {
        Map<SetId, String> labels = kept.strangers().isEmpty()
                ? Map.of()
                : kit.sets(visit.viewer().site()).stream()
                        .collect(Collectors.toMap(set -> set.id(), set -> set.label()));
        return kept.strangers().stream()
                .map(one -> new Stranger(labels.getOrDefault(one.set(), ""), one.part(), one.lot(), one.at()))
                .toList();
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping("/delivery")
    String delivery(@RequestParam(required = false) @Nullable String item, Model page) {
        page.addAttribute("stockReceipt", StockForm.of(item, null));
        return DELIVERY;
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping("/delivery")
    ModelAndView receive(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("stockReceipt") StockForm form,
            BindingResult typed) {
        return take(
                visit,
                request,
                typed,
                "stockReceipt",
                DELIVERY,
                () -> received(visit, form),
                () -> stock.receive(
                        Author.at(visit.viewer()),
                        form.code(),
                        new StockReceipt(
                                form.lotOrNone(),
                                form.piecesOrNone(),
                                form.lastDay(),
                                form.orderedOn(),
                                form.delivery()),
                        form.instant(visit.zone(), desk.now()),
                        null));
    }

    private List<Line> received(Visit visit, StockForm form) {
        Answers.Lines lines = lines("stockReceipt", form).day("lastDay", form.lastDay());
        if (form.lastDay() != null
                && form.lastDay().isBefore(desk.now().atZone(visit.zone()).toLocalDate())) {
            lines.decides("over", "barred", "stockReceipt.over.YES");
        }
        return lines.day("orderedOn", form.orderedOn())
                .text("delivery", form.delivery())
                .at(form, visit);
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping("/withdrawal")
    String withdrawal(
            @RequestParam(required = false) @Nullable String item,
            @RequestParam(required = false) @Nullable String lot,
            Model page) {
        page.addAttribute("stockUse", StockForm.of(item, lot));
        return WITHDRAWAL;
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping("/withdrawal")
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("stockUse") StockForm form,
            BindingResult typed) {
        return take(visit, request, typed, "stockUse", WITHDRAWAL, () -> taken(visit, form), () -> {
            if (form.use() == null) {
                throw new Refused("stockUse.use.missing");
            }
            return stock.take(
                    Author.at(visit.viewer()),
                    form.code(),
                    new StockUse(form.lotOrNone(), form.piecesOrNone(), Objects.requireNonNull(form.use())),
                    form.instant(visit.zone(), desk.now()),
                    null);
        });
    }

    private List<Line> taken(Visit visit, StockForm form) {
        Answers.Lines lines = lines("stockUse", form).choice("use", form.use());
        StockLot lot =
                stock.lot(visit.viewer().site(), form.code(), form.lotOrNone(), form.instant(visit.zone(), desk.now()));
        if (lot == null) {
            lines.decides("known", "half", "stockUse.known.NO");
        } else if (lot.pieces() < form.piecesOrNone()) {
            lines.decides("known", "half", "stockUse.known.FEWER", lot.pieces());
        }
        if (form.use() != StockUse.Use.DISCARDED) {
            sooner(visit, form)
                    .ifPresent(next -> lines.decides(
                            "sooner",
                            "half",
                            "stockUse.sooner.YES",
                            next.lot(),
                            Objects.requireNonNull(next.lastDay())));
        }
        return lines.at(form, visit);
    }

    /** The lot that runs out sooner than the one typed. First expired, first out: common practice, no source. */
    private Optional<StockLot> sooner(Visit visit, StockForm form) {
        Instant at = form.instant(visit.zone(), desk.now());
        StockLot typed = stock.lot(visit.viewer().site(), form.code(), form.lotOrNone(), at);
        return stock.kept(visit.viewer().site(), at).items().stream()
                .filter(item -> item.code().equals(form.code()))
                .map(StockItem::next)
                .filter(Objects::nonNull)
                .filter(next -> typed != null && next.lot() != null && runsOut(next, typed.lastDay()))
                .findFirst();
    }

    /** @param before none for a lot that is good for ever */
    private static boolean runsOut(StockLot lot, @Nullable LocalDate before) {
        return lot.lastDay() != null && (before == null || lot.lastDay().isBefore(before));
    }

    @Allowed(Role.STOREKEEPER)
    @GetMapping("/count")
    String count(
            @RequestParam(required = false) @Nullable String item,
            @RequestParam(required = false) @Nullable String lot,
            Model page) {
        page.addAttribute("stockCount", StockForm.of(item, lot));
        return COUNT;
    }

    @Allowed(Role.STOREKEEPER)
    @PostMapping("/count")
    ModelAndView counted(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("stockCount") StockForm form,
            BindingResult typed) {
        return take(
                visit,
                request,
                typed,
                "stockCount",
                COUNT,
                () -> lines("stockCount", form).day("lastDay", form.lastDay()).at(form, visit),
                () -> stock.count(
                        Author.at(visit.viewer()),
                        form.code(),
                        new StockCount(form.lotOrNone(), form.piecesOrNone(), form.lastDay()),
                        form.instant(visit.zone(), desk.now()),
                        null));
    }

    private Answers.Lines lines(String form, StockForm typed) {
        return answers.of(form)
                .text("item", typed.code())
                .text("lot", typed.lotOrNone())
                .text("pieces", String.valueOf(typed.piecesOrNone()));
    }

    private ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            BindingResult typed,
            String name,
            String view,
            Supplier<List<Line>> check,
            Supplier<RecordId> record) {
        return desk.take(
                visit,
                request,
                typed,
                new DeskSheet(name, view, check, record, "/sites/" + visit.siteCode() + "/stock"));
    }
}
