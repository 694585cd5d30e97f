package org.hoodkeeper.web.oversight;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.validation.Valid;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.LegalHolds;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Sheet;
import org.hoodkeeper.web.sheet.Sheets;
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

/** Places a legal hold on a person, a set, a task or the site: nothing about it is erased until it is lifted. */
@Controller
@RequestMapping("/sites/{site}/legal-hold")
class LegalHoldController {

    private static final String VIEW = "oversight/legal-hold";

    private final Sheets sheets;
    private final LegalHolds holds;
    private final People people;
    private final Kit kit;
    private final Programme programme;

    LegalHoldController(Sheets sheets, LegalHolds holds, People people, Kit kit, Programme programme) {
        this.sheets = sheets;
        this.holds = holds;
        this.people = people;
        this.kit = kit;
        this.programme = programme;
    }

    @ModelAttribute("abouts")
    List<Choice> abouts() {
        return Choice.each("legalHold.about.", LegalHoldForm.About.values());
    }

    @Allowed(Role.OFFICER)
    @GetMapping
    String show(
            @RequestParam(required = false) @Nullable String about,
            @RequestParam(required = false) @Nullable String name,
            Model page) {
        LegalHoldForm.About named = Stream.of(LegalHoldForm.About.values())
                .filter(one -> one.name().equals(about))
                .findFirst()
                .orElse(null);
        page.addAttribute("legalHold", new LegalHoldForm(named, name, null, null, null));
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping
    ModelAndView take(
            Visit visit,
            HttpServletRequest request,
            @Valid @ModelAttribute("legalHold") LegalHoldForm form,
            BindingResult typed) {
        return sheets.take(visit, request, form, typed, new Sheet("legalHold", VIEW, () -> record(visit, form)));
    }

    private RecordId record(Visit visit, LegalHoldForm form) {
        return holds.place(
                Author.at(visit.viewer()),
                on(visit.viewer().site(), form),
                form.reason(),
                form.instant(visit.zone(), sheets.now()),
                null);
    }

    private Id on(SiteId site, LegalHoldForm form) {
        String name = form.name() == null ? "" : form.name().strip();
        LegalHoldForm.About about = Objects.requireNonNull(form.about());
        if ((about == LegalHoldForm.About.SITE) != name.isEmpty()) {
            throw new Refused(name.isEmpty() ? "legalHold.name.missing" : "legalHold.name.site", name);
        }
        return switch (about) {
            case WORKER ->
                people.all(site).stream()
                        .filter(one -> one.number().equals(name))
                        .findFirst()
                        .orElseThrow(() -> new Refused("legalHold.name.unknown", name))
                        .id();
            case SET ->
                kit.findSet(site, name)
                        .orElseThrow(() -> new Refused("legalHold.name.unknown", name))
                        .id();
            case TASK ->
                programme.tasks(site).stream()
                        .filter(task -> task.code().equals(name))
                        .findFirst()
                        .orElseThrow(() -> new Refused("legalHold.name.unknown", name))
                        .id();
            case SITE -> site;
        };
    }
}
