package org.hoodkeeper.web.oversight;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.oversight.ChainChecks;
import org.hoodkeeper.oversight.ChainHead;
import org.hoodkeeper.web.Refusals;
import org.hoodkeeper.web.record.Names;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.ModelAndView;

/** Proof that nobody bent the record: check every link, take the head along, hold an earlier one against today's chain. */
@Controller
class VerifyController {

    private static final String VIEW = "oversight/verify";
    private static final String EARLIER = "earlier";

    /** Longer than this nobody waits for a page; the check goes on, and the page says so. */
    private static final Duration PATIENCE = Duration.ofSeconds(5);

    private final ChainChecks checks;
    private final Names names;
    private final Sheets sheets;
    private final Refusals refusals;

    VerifyController(ChainChecks checks, Names names, Sheets sheets, Refusals refusals) {
        this.checks = checks;
        this.names = names;
        this.sheets = sheets;
        this.refusals = refusals;
    }

    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/verify")
    String show(Visit visit, Model page) {
        page.addAttribute(EARLIER, new EarlierForm(null, null));
        shown(visit, checks.newest(visit.viewer().site()), page);
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping("/sites/{site}/verify")
    String check(Visit visit) {
        return "redirect:/sites/" + visit.siteCode() + "/verify/" + checks.check(visit.viewer(), PATIENCE);
    }

    /** @throws NotFound {@code verify.unknown} */
    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/verify/{check}")
    String again(Visit visit, @PathVariable UUID check, Model page) {
        page.addAttribute(EARLIER, new EarlierForm(null, null));
        shown(visit, checks.one(visit.viewer().site(), check), page);
        return VIEW;
    }

    @Allowed(Role.OFFICER)
    @PostMapping("/sites/{site}/verify/earlier")
    ModelAndView compare(Visit visit, @ModelAttribute(EARLIER) EarlierForm form, BindingResult shape, Model page) {
        shown(visit, checks.newest(visit.viewer().site()), page);
        if (shape.hasErrors()) {
            return new ModelAndView(VIEW, HttpStatus.UNPROCESSABLE_CONTENT);
        }
        try {
            page.addAttribute("compared", checks.compare(visit.viewer(), visit.siteCode(), form.heads()));
            return new ModelAndView(VIEW);
        } catch (Refused refused) {
            refusals.show(refused, shape, refused.code().equals("head.file.large") ? "file" : "head");
            return new ModelAndView(VIEW, HttpStatus.UNPROCESSABLE_CONTENT);
        }
    }

    /** The head on paper. */
    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/verify/head")
    String print(Visit visit, Model page) {
        page.addAttribute("heads", checks.take(visit.viewer(), visit.siteCode()));
        page.addAttribute("at", sheets.now());
        page.addAttribute("by", visit.account().name());
        return "oversight/head";
    }

    /** The head as a text file, which {@code ops/verify-chain --head} reads as well. */
    @Allowed(Role.OFFICER)
    @GetMapping("/sites/{site}/verify/head.txt")
    ResponseEntity<String> take(Visit visit) {
        Instant at = sheets.now().truncatedTo(ChronoUnit.SECONDS);
        List<ChainHead> heads = checks.take(visit.viewer(), visit.siteCode());
        String text = Stream.concat(
                        Stream.of("# Hoodkeeper " + visit.siteCode() + " " + at),
                        heads.stream().map(ChainHead::line))
                .collect(Collectors.joining("\n", "", "\n"));
        String name = visit.siteCode() + "-head-" + at.toString().replace(":", "") + ".txt";
        return ResponseEntity.ok()
                .header(HttpHeaders.CONTENT_TYPE, "text/plain;charset=UTF-8")
                .header(HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"" + name + "\"")
                .header(HttpHeaders.CACHE_CONTROL, "no-store")
                .body(text);
    }

    private void shown(Visit visit, ChainChecks.@Nullable Check check, Model page) {
        page.addAttribute("check", check);
        page.addAttribute("by", check == null ? "" : names.of(visit).account(check.by()));
        page.addAttribute("heads", checks.heads(visit.viewer().site(), visit.siteCode()));
    }
}
