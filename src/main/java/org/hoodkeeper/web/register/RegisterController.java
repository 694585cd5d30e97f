package org.hoodkeeper.web.register;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.AirSupply;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Task;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.Indicators;
import org.hoodkeeper.web.sheet.Sheets;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The lists that everything else names: who keeps them adds to them here. */
@Controller
class RegisterController {

    private final Programme programme;
    private final Kit kit;
    private final Bench bench;
    private final Indicators indicators;
    private final Sheets sheets;

    RegisterController(Programme programme, Kit kit, Bench bench, Indicators indicators, Sheets sheets) {
        this.programme = programme;
        this.kit = kit;
        this.bench = bench;
        this.indicators = indicators;
        this.sheets = sheets;
    }

    /** @param added the code of what was just added, said over the lists */
    @Allowed({Role.OFFICER, Role.STOREKEEPER, Role.HYGIENIST})
    @GetMapping("/sites/{site}/register")
    String show(Visit visit, @RequestParam(required = false) @Nullable String added, Model page) {
        SiteId site = visit.viewer().site();
        Instant now = sheets.now();
        List<String> tasks = programme.tasks(site).stream().map(Task::code).toList();
        Map<String, Indicators.Indicator> valid = indicators.valid(site, null, now).stream()
                .collect(Collectors.toMap(Indicators.Indicator::code, Function.identity()));
        page.addAttribute("tasks", tasks);
        page.addAttribute("models", bench.models(site, now));
        page.addAttribute("instruments", kit.instruments(site));
        page.addAttribute("valid", valid);
        page.addAttribute(
                "supplies", kit.supplies(site).stream().map(AirSupply::code).toList());
        page.addAttribute("addedTask", tasks.contains(added) ? added : null);
        page.addAttribute(
                "addedModel",
                bench.models(site, now).stream().anyMatch(model -> model.code().equals(added)) ? added : null);
        page.addAttribute("officer", visit.viewer().is(Role.OFFICER));
        page.addAttribute("hygienist", visit.viewer().is(Role.HYGIENIST));
        page.addAttribute("storekeeper", visit.viewer().is(Role.STOREKEEPER));
        return "register/register";
    }
}
