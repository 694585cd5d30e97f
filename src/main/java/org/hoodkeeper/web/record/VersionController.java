package org.hoodkeeper.web.record;

import java.util.List;
import java.util.UUID;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.evidence.Entitled;
import org.hoodkeeper.exchange.Rewriting;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.Consequences;
import org.hoodkeeper.oversight.Erasures;
import org.hoodkeeper.oversight.KeepUntil;
import org.hoodkeeper.oversight.Retentions;
import org.hoodkeeper.store.LookBacks;
import org.hoodkeeper.web.sheet.Sheets;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;

/** One record: what it says, what became of it, and what rested on it. */
@Controller
class VersionController {

    private final Chains chains;
    private final Cells cells;
    private final Consequences consequences;
    private final About about;
    private final Names names;
    private final Retentions retentions;
    private final Erasures erasures;
    private final Keeping keeping;
    private final LookBacks lookBacks;
    private final Sheets sheets;

    VersionController(
            Chains chains,
            Cells cells,
            Consequences consequences,
            About about,
            Names names,
            Retentions retentions,
            Erasures erasures,
            Keeping keeping,
            LookBacks lookBacks,
            Sheets sheets) {
        this.chains = chains;
        this.cells = cells;
        this.consequences = consequences;
        this.about = about;
        this.names = names;
        this.retentions = retentions;
        this.erasures = erasures;
        this.keeping = keeping;
        this.lookBacks = lookBacks;
        this.sheets = sheets;
    }

    @Allowed(
            value = {Role.OFFICER, Role.SUPERVISOR, Role.STOREKEEPER, Role.HEALTH, Role.TRAINER, Role.HYGIENIST},
            self = true)
    @GetMapping("/sites/{site}/records/{record}")
    String show(Visit visit, @PathVariable String record, Model page) {
        Erasures.Done done = erasures.erasureOf(visit.viewer().site(), Sheets.recordId(record), sheets.now());
        if (done != null && Sight.ofKind(visit.viewer(), done.told().erased())) {
            page.addAttribute("done", done);
            page.addAttribute("record", record);
            page.addAttribute("provenance", retentions.provenance(done.told().rule()));
            return "record/erased";
        }
        History.Version version = chains.open(visit, record);
        About.Thing thing = about.of(visit, version);
        page.addAttribute("version", version);
        page.addAttribute("told", version.told());
        page.addAttribute("names", names.of(visit));
        page.addAttribute("about", thing);
        page.addAttribute("newest", chains.newest(visit, version));
        page.addAttribute("chain", chains.of(visit, version));
        page.addAttribute("cells", cells.shown(visit, version));
        boolean entitled = version.isCurrent() && Entitled.toCorrect(visit.viewer(), version);
        page.addAttribute("mayCorrect", entitled && Rewriting.isRewritten(version.kind()));
        page.addAttribute("mayWithdraw", entitled);
        page.addAttribute("touched", version.replacedBy() == null ? null : consequences.of(visit.viewer(), version));
        page.addAttribute(
                "looksBack",
                visit.viewer().isAny(Role.OFFICER, Role.STOREKEEPER, Role.SUPERVISOR)
                        && lookBacks.asks(visit.viewer().site(), version.told().id()));
        keptUntil(visit, version, page);
        return "record/version";
    }

    /** How long it is kept: for the safety officer and, of what is medical, the health role. */
    private void keptUntil(Visit visit, History.Version version, Model page) {
        if (!visit.viewer().isAny(Role.OFFICER, Role.HEALTH)) {
            return;
        }
        UUID id = version.told().id().value();
        KeepUntil kept =
                retentions.of(visit.viewer().site(), List.of(id), sheets.now()).get(id);
        if (kept != null) {
            page.addAttribute("kept", keeping.until(kept));
            page.addAttribute("keptBy", keeping.lines(kept));
        }
    }
}
