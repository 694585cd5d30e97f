package org.hoodkeeper.web.worker;

import jakarta.servlet.http.HttpServletResponse;
import java.time.Instant;
import java.util.List;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.OnceOnly;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The worker has come out. Nobody is ever refused that, whatever stands in the way of going in. */
@Controller
@RequestMapping("/sites/{site}/today/leave")
class LeaveController {

    private static final String VIEW = "worker/leave";

    private final Mine mine;
    private final Wears wears;
    private final OnceOnly onceOnly;
    private final Programme programme;
    private final Kit kit;
    private final Ends ends;
    private final Words words;
    private final Refusals refusals;

    LeaveController(
            Mine mine,
            Wears wears,
            OnceOnly onceOnly,
            Programme programme,
            Kit kit,
            Ends ends,
            Words words,
            Refusals refusals) {
        this.mine = mine;
        this.wears = wears;
        this.onceOnly = onceOnly;
        this.programme = programme;
        this.kit = kit;
        this.ends = ends;
        this.words = words;
        this.refusals = refusals;
    }

    @Allowed(Role.WORKER)
    @GetMapping
    String show(Visit visit, Model page) {
        Told<Wear> entry = entry(visit, page);
        page.addAttribute(
                "leave", new LeaveForm(entry == null ? null : entry.id().toString()));
        return VIEW;
    }

    @Allowed(Role.WORKER)
    @PostMapping
    String take(
            Visit visit,
            @ModelAttribute("leave") LeaveForm form,
            BindingResult shape,
            @RequestParam(required = false) @Nullable String formKey,
            Model page,
            HttpServletResponse response) {
        WorkerId worker = mine.self(visit).id();
        try {
            OnceOnly.Done done = onceOnly.once(
                    visit.viewer(),
                    "leave",
                    formKey == null ? "" : formKey,
                    List.of(String.valueOf(form.entry())),
                    () -> wears.exit(Author.at(visit.viewer()), worker, mine.now(), null)
                            .toString());
            return "redirect:/sites/" + visit.siteCode() + "/today?done=" + done.value();
        } catch (Refused refused) {
            refusals.show(refused, shape);
            entry(visit, page);
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            return VIEW;
        }
    }

    private @Nullable Told<Wear> entry(Visit visit, Model page) {
        SiteId site = visit.viewer().site();
        Instant now = mine.now();
        Told<Wear> entry = wears.inside(site, mine.self(visit).id(), now);
        page.addAttribute("inside", entry != null);
        page.addAttribute(
                "sentence",
                entry == null || entry.set() == null
                        ? words.say("leave.outside")
                        : words.say(
                                "leave.sentence",
                                programme.task(site, entry.fact().task()).code(),
                                kit.set(site, entry.set()).label(),
                                ends.clock(entry.from(), now, visit.zone())));
        return entry;
    }
}
