package org.hoodkeeper.web.oversight;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.calculation.parts.LookBackWindow;
import org.hoodkeeper.facts.LookBack;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.Worn;
import org.hoodkeeper.store.LookBacks;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Line;
import org.hoodkeeper.web.sheet.Sheets;
import org.hoodkeeper.web.sheet.Way;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.servlet.ModelAndView;

/**
 * One look-back: since when, who wore it and where, which checks do not count and why, what others have in common with it, and what
 * was decided. The store sees sets and counts without names.
 */
@Controller
@RequestMapping("/sites/{site}/look-backs/{record}")
class LookBackController {

    private static final String VIEW = "oversight/look-back";
    private static final String CHECK = "sheet/check";

    /** Enough to read; the count of the rest is said, and the incident file has them. */
    private static final int ROWS = 200;

    private final LookBacks lookBacks;
    private final LookBackWords said;
    private final Names names;
    private final Sheets sheets;
    private final Words words;
    private final AuditTrail audit;

    LookBackController(
            LookBacks lookBacks, LookBackWords said, Names names, Sheets sheets, Words words, AuditTrail audit) {
        this.lookBacks = lookBacks;
        this.said = said;
        this.names = names;
        this.sheets = sheets;
        this.words = words;
        this.audit = audit;
    }

    /** A check that does not count. @param kind of record */
    public record Uncounted(String fault, String kind, LookBackWindow.Check check) {}

    /** @param proof what the check was; empty where none counts @param check the check itself, where one does */
    public record Start(String fault, String proof, LookBackWindow window) {}

    @ModelAttribute("measures")
    List<Choice> measures() {
        return Choice.each("kinds.LookBackMeasure.", LookBack.Measure.values());
    }

    @Allowed({Role.STOREKEEPER, Role.OFFICER, Role.SUPERVISOR})
    @GetMapping
    String show(Visit visit, @PathVariable String record, Model page) {
        shown(visit, record, page);
        page.addAttribute("lookBack", new LookBackForm(null, null));
        page.addAttribute("lookBackClose", new LookBackCloseForm(null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping("/decision")
    ModelAndView decide(
            Visit visit,
            @PathVariable String record,
            HttpServletRequest request,
            @Valid @ModelAttribute("lookBack") LookBackForm form,
            BindingResult typed,
            Model page) {
        page.addAttribute("lookBackClose", new LookBackCloseForm(null));
        RecordId id = shown(visit, record, page);
        Way way = new Way(
                "lookBack",
                VIEW,
                CHECK,
                () -> List.of(
                        new Line("lookBack.measures", chosen(form)),
                        new Line("lookBack.reason", form.reason() == null ? "" : form.reason())),
                () -> lookBacks.decide(visit.viewer(), id, form.chosen(), form.reason()),
                told -> address(visit, id));
        return sheets.take(visit, request, typed, way);
    }

    @Allowed(Role.OFFICER)
    @PostMapping("/closing")
    ModelAndView close(
            Visit visit,
            @PathVariable String record,
            HttpServletRequest request,
            @Valid @ModelAttribute("lookBackClose") LookBackCloseForm form,
            BindingResult typed,
            Model page) {
        page.addAttribute("lookBack", new LookBackForm(null, null));
        RecordId id = shown(visit, record, page);
        Way way = new Way(
                "lookBackClose",
                VIEW,
                CHECK,
                () -> List.of(new Line("lookBackClose.done", form.done() == null ? "" : form.done())),
                () -> lookBacks.close(visit.viewer(), id, form.done()),
                told -> address(visit, id));
        return sheets.take(visit, request, typed, way);
    }

    private static String address(Visit visit, RecordId root) {
        return "/sites/" + visit.siteCode() + "/look-backs/" + root;
    }

    private String chosen(LookBackForm form) {
        return form.chosen().isEmpty()
                ? words.say("lookBack.measures.none")
                : form.chosen().stream()
                        .sorted()
                        .map(measure -> words.say("kinds.LookBackMeasure." + measure))
                        .collect(Collectors.joining(", "));
    }

    private RecordId shown(Visit visit, String record, Model page) {
        SiteId site = visit.viewer().site();
        LookBacks.Whole whole = lookBacks.one(site, Sheets.recordId(record));
        boolean named = visit.viewer().isAny(Role.OFFICER, Role.SUPERVISOR);
        List<Worn> wears = whole.wears();
        List<Worn> listed = named ? wears.subList(0, Math.min(ROWS, wears.size())) : List.of();
        if (named) {
            audit.seen(visit.viewer(), listed.stream().map(Worn::worker).collect(Collectors.toSet()), "look-backs");
        }
        Names.Book book = names.of(visit);
        Map<RecordId, History.Version> checks = lookBacks.checks(site, whole);
        page.addAttribute("whole", whole);
        page.addAttribute("about", said.about(whole, book));
        page.addAttribute("what", said.what(whole));
        page.addAttribute("names", book);
        page.addAttribute("named", named);
        page.addAttribute("listed", listed);
        page.addAttribute("wears", wears.size());
        page.addAttribute("starts", starts(whole, checks));
        page.addAttribute("refused", refused(whole, checks));
        page.addAttribute("shared", lookBacks.shared(site, whole));
        page.addAttribute("decides", visit.viewer().is(Role.OFFICER));
        page.addAttribute("opens", visit.viewer().isAny(Role.STOREKEEPER, Role.OFFICER));
        return whole.root();
    }

    private List<Start> starts(LookBacks.Whole whole, Map<RecordId, History.Version> checks) {
        return whole.looked().stream()
                .map(one -> new Start(said.fault(one.fault()), kind(one.window().proof(), checks), one.window()))
                .toList();
    }

    private List<Uncounted> refused(LookBacks.Whole whole, Map<RecordId, History.Version> checks) {
        List<Uncounted> refused = new ArrayList<>();
        whole.looked()
                .forEach(one -> one.window()
                        .refused()
                        .forEach(check ->
                                refused.add(new Uncounted(said.fault(one.fault()), kind(check, checks), check))));
        return refused.subList(0, Math.min(ROWS, refused.size()));
    }

    private String kind(LookBackWindow.@Nullable Check check, Map<RecordId, History.Version> checks) {
        History.Version version = check == null ? null : checks.get(check.record());
        return version == null ? "" : words.say("kinds.Kind." + version.kind());
    }
}
