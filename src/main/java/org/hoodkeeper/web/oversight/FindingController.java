package org.hoodkeeper.web.oversight;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.facts.Finding;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.Findings;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.ReasonWords;
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

/** One finding: what happened, why it counts, what was done, and the two things that can be done now. */
@Controller
@RequestMapping("/sites/{site}/findings/{record}/{sort}")
class FindingController {

    /** What rests on how much of a substance is in the air. */
    private static final Set<String> OF_EXPOSURE =
            Set.of(RequirementKind.ADEQUACY.name(), RequirementKind.FILTER.name());

    private static final String VIEW = "oversight/finding";
    private static final String CHECK = "sheet/check";

    private final Findings findings;
    private final Names names;
    private final Accounts accounts;
    private final Sheets sheets;
    private final Words words;
    private final ReasonWords reasons;
    private final AuditTrail audit;

    FindingController(
            Findings findings,
            Names names,
            Accounts accounts,
            Sheets sheets,
            Words words,
            ReasonWords reasons,
            AuditTrail audit) {
        this.findings = findings;
        this.names = names;
        this.accounts = accounts;
        this.sheets = sheets;
        this.words = words;
        this.reasons = reasons;
        this.audit = audit;
    }

    /** @param record what it rests on; none where nothing is on record */
    public record Why(
            String requirement, String why, @Nullable String record) {}

    /** @return as it stands in addresses */
    static String slug(Finding.Sort sort) {
        return sort.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static Finding.Sort sort(String slug) {
        return Stream.of(Finding.Sort.values())
                .filter(sort -> slug(sort).equals(slug))
                .findFirst()
                .orElseThrow(() -> new NotFound("finding.unknown", slug));
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(Visit visit, @PathVariable String record, @PathVariable("sort") String slug, Model page) {
        page.addAttribute("assign", new AssignForm(null, null));
        page.addAttribute("close", new CloseForm(null));
        shown(visit, record, slug, page);
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping("/owner")
    ModelAndView assign(
            Visit visit,
            @PathVariable String record,
            @PathVariable("sort") String slug,
            HttpServletRequest request,
            @Valid @ModelAttribute("assign") AssignForm form,
            BindingResult typed,
            Model page) {
        page.addAttribute("close", new CloseForm(null));
        RecordId root = shown(visit, record, slug, page);
        // where the day could not be read there is no form to look into
        if (!typed.hasErrors()
                && owners(visit).stream().noneMatch(owner -> owner.value().equals(form.owner()))) {
            typed.rejectValue("owner", "refused.finding.owner.missing", words.say("refused.finding.owner.missing"));
        }
        Way way = new Way(
                "assign",
                VIEW,
                CHECK,
                () -> List.of(
                        new Line("assign.owner", owner(visit, form)),
                        new Line("assign.dueOn", words.say("assign.day", form.dueOn()))),
                () -> findings.assign(visit.viewer(), root, sort(slug), form.account(), form.dueOn()),
                told -> address(visit, root, slug));
        return sheets.take(visit, request, typed, way);
    }

    @Allowed(Role.OFFICER)
    @PostMapping("/closing")
    ModelAndView close(
            Visit visit,
            @PathVariable String record,
            @PathVariable("sort") String slug,
            HttpServletRequest request,
            @Valid @ModelAttribute("close") CloseForm form,
            BindingResult typed,
            Model page) {
        page.addAttribute("assign", new AssignForm(null, null));
        RecordId root = shown(visit, record, slug, page);
        Way way = new Way(
                "close",
                VIEW,
                CHECK,
                () -> List.of(new Line("close.action", form.action() == null ? "" : form.action())),
                () -> findings.close(visit.viewer(), root, sort(slug), form.action()),
                told -> address(visit, root, slug));
        return sheets.take(visit, request, typed, way);
    }

    private static String address(Visit visit, RecordId root, String slug) {
        return "/sites/" + visit.siteCode() + "/findings/" + root + "/" + slug;
    }

    private RecordId shown(Visit visit, String record, String slug, Model page) {
        RecordId root = Sheets.recordId(record);
        Findings.Found found = findings.one(visit.viewer().site(), root, sort(slug));
        audit.seen(visit.viewer(), found.worn().worker(), "findings");
        Names.Book book = names.of(visit);
        page.addAttribute("found", found);
        page.addAttribute("slug", slug);
        page.addAttribute("names", book);
        page.addAttribute("number", book.number(found.worn().worker()));
        page.addAttribute("who", book.of(found.worn().worker()));
        page.addAttribute(
                "with",
                words.say(
                        "findings.with",
                        book.of(found.worn().task()),
                        book.of(found.worn().set())));
        page.addAttribute("label", book.of(found.worn().set()));
        page.addAttribute(
                "barred",
                found.barred().stream()
                        .map(kind -> words.say("kinds.RequirementKind." + kind))
                        .toList());
        page.addAttribute(
                "why",
                findings.why(visit.viewer(), found).stream()
                        .map(reason -> new Why(
                                reasons.requirement(reason),
                                reasons.why(reason),
                                reason.record() == null ? null : reason.record().toString()))
                        .toList());
        page.addAttribute(
                "task",
                found.barred().stream().anyMatch(OF_EXPOSURE::contains)
                        ? book.of(found.worn().task())
                        : null);
        page.addAttribute("owners", owners(visit));
        return root;
    }

    private String owner(Visit visit, AssignForm form) {
        return owners(visit).stream()
                .filter(owner -> owner.value().equals(form.owner()))
                .findFirst()
                .map(owner -> String.valueOf(owner.text()))
                .orElse("");
    }

    private List<Choice> owners(Visit visit) {
        return accounts.on(visit.viewer().site()).stream()
                .filter(line -> !line.isDisabled())
                .map(line -> Choice.named(line.id().toString(), line.name()))
                .toList();
    }
}
